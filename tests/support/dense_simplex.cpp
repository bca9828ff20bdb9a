#include "dense_simplex.h"

#include <cmath>

namespace dense {
namespace {

using Row = std::vector<double>;

/// Rows of the table are columns x rows of the programme, its right side last; the last row holds the prices.
class Table {
  public:
    Table(const Programme& programme, std::vector<std::size_t> basis)
        : basis_(std::move(basis)), width_(programme.columns.size()) {
        for (std::size_t i = 0; i < programme.right.size(); ++i) {
            const double sign = programme.columns[basis_[i]][i];
            Row row;
            for (const auto& column : programme.columns)
                row.push_back(sign * column[i]);
            row.push_back(sign * programme.right[i]);
            rows_.push_back(row);
        }
        prices_ = programme.costs;
        prices_.push_back(0.0);
        for (std::size_t i = 0; i < rows_.size(); ++i)
            subtract(prices_, rows_[i], programme.costs[basis_[i]]);
    }

    bool solve() {
        constexpr int patience = 60;  // pivots without gain, then Bland's rule
        int still = 0;
        for (int pivots = 0; pivots < 20000; ++pivots) {
            const auto column = entering(still > patience);
            if (!column) return true;
            const auto row = leaving(*column);
            if (!row) return false;
            const double before = prices_.back();
            pivot(*row, *column);
            still = std::abs(prices_.back() - before) > 1e-12 * (1.0 + std::abs(before)) ? 0 : still + 1;
        }
        return true;  // near enough for what it is asked for
    }
    [[nodiscard]] std::vector<double> solution() const {
        std::vector<double> x(width_, 0.0);
        for (std::size_t i = 0; i < rows_.size(); ++i)
            x[basis_[i]] = rows_[i].back();
        return x;
    }

  private:
    static void subtract(Row& from, const Row& row, double factor) {
        for (std::size_t k = 0; k < from.size(); ++k)
            from[k] -= factor * row[k];
    }
    [[nodiscard]] std::optional<std::size_t> entering(bool first) const {
        std::optional<std::size_t> found;
        double least = -1e-11;
        for (std::size_t k = 0; k < width_; ++k) {
            if (prices_[k] >= least) continue;
            found = k;
            if (first) break;
            least = prices_[k];
        }
        return found;
    }
    [[nodiscard]] std::optional<std::size_t> leaving(std::size_t column) const {
        std::optional<std::size_t> found;
        double least = 0.0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (rows_[i][column] <= 1e-10) continue;
            const double ratio = rows_[i].back() / rows_[i][column];
            if (found && (ratio > least || (ratio == least && basis_[i] > basis_[*found]))) continue;
            found = i, least = ratio;
        }
        return found;
    }
    void pivot(std::size_t row, std::size_t column) {
        const double by = rows_[row][column];
        for (double& each : rows_[row])
            each /= by;
        for (std::size_t i = 0; i < rows_.size(); ++i)
            if (i != row && rows_[i][column] != 0.0) subtract(rows_[i], rows_[row], rows_[i][column]);
        subtract(prices_, rows_[row], prices_[column]);
        basis_[row] = column;
    }

    std::vector<std::size_t> basis_;
    std::size_t width_;
    std::vector<Row> rows_;
    Row prices_;
};

}  // namespace

std::optional<std::vector<double>> least_cost(const Programme& programme, std::vector<std::size_t> basis) {
    Table table(programme, std::move(basis));
    if (!table.solve()) return std::nullopt;
    return table.solution();
}

}  // namespace dense
