#include "inspect/fit/small_matrix.h"

#include <cmath>

namespace lobewright::inspection {
namespace {

constexpr double least_pivot = 1e-10;

/// One step: unknown k is eliminated from all other rows, in place.
void eliminate(SmallMatrix& a, std::size_t k) {
    const std::size_t n = a.size();
    const double pivot = a(k, k);
    a(k, k) = 1.0;
    for (std::size_t j = 0; j < n; ++j)
        a(k, j) /= pivot;
    for (std::size_t i = 0; i < n; ++i) {
        if (i == k) continue;
        const double factor = a(i, k);
        a(i, k) = 0.0;
        for (std::size_t j = 0; j < n; ++j)
            a(i, j) -= factor * a(k, j);
    }
}

}  // namespace

void SmallMatrix::add_square(const double* v, double weight) {
    for (std::size_t i = 0; i < size_; ++i)
        for (std::size_t j = 0; j < size_; ++j)
            (*this)(i, j) += weight * v[i] * v[j];
}

SmallMatrix product(const SmallMatrix& a, const SmallMatrix& b) {
    SmallMatrix c(a.size());
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t j = 0; j < a.size(); ++j)
            for (std::size_t k = 0; k < a.size(); ++k)
                c(i, j) += a(i, k) * b(k, j);
    return c;
}

std::vector<double> product(const SmallMatrix& a, const std::vector<double>& v) {
    std::vector<double> result(a.size());
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t j = 0; j < a.size(); ++j)
            result[i] += a(i, j) * v[j];
    return result;
}

std::optional<SmallMatrix> inverse_of(const SmallMatrix& matrix) {
    const std::size_t n = matrix.size();
    std::vector<double> scale(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (!(matrix(i, i) > 0.0)) return std::nullopt;
        scale[i] = 1.0 / std::sqrt(matrix(i, i));
    }
    SmallMatrix inverse = matrix;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            inverse(i, j) *= scale[i] * scale[j];
    for (std::size_t k = 0; k < n; ++k) {
        if (!(inverse(k, k) > least_pivot)) return std::nullopt;
        eliminate(inverse, k);
    }
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            inverse(i, j) *= scale[i] * scale[j];
    return inverse;
}

}  // namespace lobewright::inspection
