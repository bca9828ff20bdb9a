#include "toolpath/refusal.h"

#include <lobewright/number_text.h>

#include <cmath>
#include <numbers>

namespace lobewright::toolpath {
namespace {

constexpr int places(Units units) {
    return units == Units::mm ? 4 : 5;
}
const char* symbol(Units units) {
    return units == Units::mm ? " mm" : " in";
}

std::string rounded_text(double mm, Units units, double (*to_whole)(double)) {
    const double scale = std::pow(10.0, places(units));
    const double steps = to_whole(mm / mm_per(units) * scale);
    return shortest_fixed(steps / scale, places(units)) + symbol(units);
}

}  // namespace

Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy) {
    return {Fault::check_failed, Severity::error,   std::move(code),
            std::move(what),     std::move(remedy), job.place_of(path)};
}

Diagnostic missing(const Job& job, std::string_view path, std::string what, std::string remedy) {
    return {Fault::bad_input, Severity::error,   "missing-key",
            std::move(what),  std::move(remedy), job.place_of(path)};
}

std::string length_text(double mm, Units units) {
    return shortest_fixed(mm / mm_per(units), places(units)) + symbol(units);
}

std::string length_at_most(double mm, Units units) {
    return rounded_text(mm, units, [](double steps) { return std::floor(steps + 1e-6); });
}

std::string length_at_least(double mm, Units units) {
    return rounded_text(mm, units, [](double steps) { return std::ceil(steps - 1e-6); });
}

std::string degrees_text(double radians) {
    return shortest_fixed(radians * (180.0 / std::numbers::pi), 3) + " degrees";
}

std::string lobe_key(std::size_t entry) {
    return "lobe[" + std::to_string(entry) + "]";
}

}  // namespace lobewright::toolpath
