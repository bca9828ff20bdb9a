#include "three_operations.h"

#include "small_job.h"

namespace {

std::string operation(const std::string& name, const std::string& allowance) {
    return "[[operation]]\nname = \"" + name +
           "\"\ncutter = \"disc\"\ntolerance = 0.01\nallowance = " + allowance +
           "\nfinish_depth = 5.0\nsurface_feed = 120.0\nspindle_speed = 1500\n\n";
}

}  // namespace

std::string three_operations() {
    const std::string job = with(small_job(), "blank_diameter = 17.0", "blank_diameter = 19.0");
    const std::size_t cut = job.find("[cut]"), hand = job.find("[hand.head]");
    return job.substr(0, cut) + operation("rough", "0.6") + operation("again", "0.3") +
           operation("finish", "0.0") + job.substr(hand);
}
