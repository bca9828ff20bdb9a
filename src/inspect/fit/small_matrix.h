/// Square matrices of a few rows, for normal equations.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace lobewright::inspection {

class SmallMatrix {
  public:
    explicit SmallMatrix(std::size_t size) : size_(size), cells_(size * size) {}
    [[nodiscard]] std::size_t size() const { return size_; }
    [[nodiscard]] double& operator()(std::size_t row, std::size_t column) {
        return cells_[row * size_ + column];
    }
    [[nodiscard]] double operator()(std::size_t row, std::size_t column) const {
        return cells_[row * size_ + column];
    }
    /// Adds weight × v vᵀ. Required: v has as many items.
    void add_square(const double* v, double weight);

  private:
    std::size_t size_;
    std::vector<double> cells_;
};

SmallMatrix product(const SmallMatrix& a, const SmallMatrix& b);
std::vector<double> product(const SmallMatrix& a, const std::vector<double>& v);

/// Of a symmetric positive one, by Gauss and Jordan's steps on rows and columns scaled to a diagonal of ones;
/// nothing where a pivot falls below 1e-10: the unknowns can't be told apart.
std::optional<SmallMatrix> inverse_of(const SmallMatrix& matrix);

}  // namespace lobewright::inspection
