#include "base/text/duration_words.h"

#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright {

std::string duration_words(double seconds) {
    const long long whole = nearest_step(seconds);
    if (whole < 60) return fixed(seconds, 1) + " s";
    const std::string rest = std::to_string(whole % 60);
    return std::to_string(whole / 60) + " min " + (rest.size() < 2 ? "0" : "") + rest + " s";
}

}  // namespace lobewright
