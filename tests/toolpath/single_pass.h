/// A pass along one contour, for tests of how passes begin and end.
#pragma once

#include "toolpath/path/pass_frame.h"

namespace single_pass {

using namespace lobewright;
using namespace lobewright::toolpath;

struct SinglePass {
    Setup setup;
    RadialFunction function;
    PassOrder order;

    SinglePass(const Contour& contour, Setup made)
        : setup(std::move(made)), function(contacts(contour, setup.section, 0.0, {1e-6})) {
        order.feed = 120.0;
    }
    [[nodiscard]] PassFrame frame() const { return {setup, function, order}; }
    /// mm: the tip's, of the radial word.
    [[nodiscard]] double tip(long long steps) const {
        return static_cast<double>(steps) * setup.steps.radial - setup.section.word_offset;
    }
    /// mm that the tip stands over the radial function at a knot.
    [[nodiscard]] double over(const GridKnot& knot) const {
        return tip(knot.radial) - function.at(frame().travel(knot.rotary)).radial;
    }
};

}  // namespace single_pass
