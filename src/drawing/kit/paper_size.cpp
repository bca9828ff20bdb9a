#include <lobewright/drawing.h>

#include <array>

namespace lobewright {

double usual_scale(double size, double room) {
    constexpr std::array<double, 11> scales{50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02};
    for (const double scale : scales)
        if (size * scale <= room) return scale;
    return scales.back();
}

}  // namespace lobewright
