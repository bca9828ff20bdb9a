/// Marks on some of a program's moves.
#pragma once

#include <algorithm>
#include <vector>

namespace lobewright::proof {

/// Marking, listing and clearing take as long as there are marks, not as there are moves.
class MoveMarks {
  public:
    explicit MoveMarks(int moves) : marked_(static_cast<std::size_t>(moves), false) {}

    void mark(int move) {
        if (marked_[static_cast<std::size_t>(move)]) return;
        marked_[static_cast<std::size_t>(move)] = true;
        all_.push_back(move);
    }
    /// The marked moves' indices, ascending.
    [[nodiscard]] std::vector<int> in_order() const {
        std::vector<int> sorted = all_;
        std::sort(sorted.begin(), sorted.end());
        return sorted;
    }
    void clear() {
        for (const int move : all_)
            marked_[static_cast<std::size_t>(move)] = false;
        all_.clear();
    }

  private:
    std::vector<bool> marked_;
    std::vector<int> all_;
};

}  // namespace lobewright::proof
