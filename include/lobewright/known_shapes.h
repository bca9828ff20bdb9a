/// Shapes of lobes that were solved before, for whoever has almost the same job solved again and again, as a
/// page does while somebody types.
#pragma once

#include <cstddef>
#include <memory>

namespace lobewright {

/// What solve_lobes (lobe.h) has solved, each by all that it depends on: the lobes are the same with it as
/// without, to the last bit. What was refused is not kept. For one thread at a time.
class KnownShapes {
  public:
    /// Holds shapes of no more than so many parts in all, a part being a piece of a motion or a reading of a
    /// table, about a kilobyte; those that were asked for longest ago make room.
    explicit KnownShapes(std::size_t most_parts = 20'000);
    ~KnownShapes();
    KnownShapes(const KnownShapes&) = delete;
    KnownShapes& operator=(const KnownShapes&) = delete;

    /// How many parts it holds, and how many shapes have been solved with it that it did not hold.
    [[nodiscard]] std::size_t parts() const;
    [[nodiscard]] std::size_t solved() const;

    /// The library's own.
    class Shelf;
    [[nodiscard]] Shelf& shelf() { return *shelf_; }

  private:
    std::unique_ptr<Shelf> shelf_;
};

}  // namespace lobewright
