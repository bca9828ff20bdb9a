/// A program's text, in pieces as it comes, cut into its lines.
#pragma once

#include <string>
#include <string_view>

namespace lobewright::proof {

class LineCutter {
  public:
    /// Calls visit(line) for each line that ends in the piece, without its end ("\n" or "\r\n"); a visit that
    /// gives false is the last.
    template <class Visit>
    bool cut(std::string_view piece, Visit visit) {
        for (std::size_t end = piece.find('\n'); end != std::string_view::npos; end = piece.find('\n')) {
            const std::string_view line = completed(piece.substr(0, end));
            const bool on = visit(line);
            begun_.clear();
            if (!on) return false;
            piece.remove_prefix(end + 1);
        }
        begun_ += piece;
        return true;
    }
    /// The last line, where no end closes it.
    template <class Visit>
    void finish(Visit visit) {
        if (!begun_.empty()) visit(std::string_view(begun_));
    }

  private:
    std::string_view completed(std::string_view rest) {
        if (!begun_.empty()) rest = begun_ += rest;
        if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
        return rest;
    }

    std::string begun_;  // a line whose end has not come yet
};

}  // namespace lobewright::proof
