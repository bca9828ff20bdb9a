#include "proof/sweep/sectors.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace lobewright::proof {
namespace {

class GapCosines {
  public:
    GapCosines() {
        for (int k = -sector_reach; k <= sector_reach; ++k) {
            const int gap = k > 0 ? k - 1 : std::max(0, -k - 2);
            of_[place(k)] = std::max(0.0, elementary::cos(gap * sector_width));
        }
    }
    [[nodiscard]] double of(int k) const { return of_[place(k)]; }

  private:
    static std::size_t place(int k) {
        const int from_first = k + sector_reach;
        return static_cast<std::size_t>(from_first);
    }
    std::array<double, 2 * sector_reach + 1> of_;
};
const GapCosines gap_cosines;

}  // namespace

unsigned sector_of(double psi) {
    const double whole = std::floor(psi / sector_width);
    return static_cast<unsigned>(whole - sectors_of_turn * std::floor(whole / sectors_of_turn));
}

double gap_cosine(int k) {
    return gap_cosines.of(k);
}

}  // namespace lobewright::proof
