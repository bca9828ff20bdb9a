#include "proof/judge/surface_around.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace lobewright::proof {

void SurfaceAround::take(double psi, double off, int move) {
    const double turns = psi / full_turn;
    const auto index = static_cast<int>((turns - std::floor(turns)) * surface_places);
    Bin& bin = bins_[static_cast<std::size_t>(std::min(index, surface_places - 1))];
    if (off < bin.deepest) bin.deepest = off, bin.move = move;
    bin.proudest = std::max(bin.proudest, off);
}

std::vector<SurfacePlace> SurfaceAround::places(const ShaftMoves& moves) const {
    std::vector<SurfacePlace> places;
    for (int i = 0; i < surface_places; ++i) {
        const Bin& bin = bins_[static_cast<std::size_t>(i)];
        if (bin.deepest > bin.proudest) continue;
        places.push_back({i, bin.deepest, bin.proudest, bin.move < 0 ? 0 : moves.line(bin.move)});
    }
    return places;
}

void worsen(std::vector<SurfacePlace>& around, const std::vector<SurfacePlace>& other) {
    std::vector<std::optional<SurfacePlace>> all(surface_places);
    for (const SurfacePlace& place : around)
        all[static_cast<std::size_t>(place.index)] = place;
    for (const SurfacePlace& place : other) {
        std::optional<SurfacePlace>& worst = all[static_cast<std::size_t>(place.index)];
        if (!worst) worst = place;
        worst->proudest = std::max(worst->proudest, place.proudest);
        if (place.deepest < worst->deepest) worst->deepest = place.deepest, worst->line = place.line;
    }
    around.clear();
    for (const std::optional<SurfacePlace>& place : all) {
        if (place) around.push_back(*place);
    }
}

}  // namespace lobewright::proof
