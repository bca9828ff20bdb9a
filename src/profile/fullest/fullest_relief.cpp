#include "profile/fullest/fullest_relief.h"

#include <cmath>

namespace lobewright::profile {
namespace {

constexpr double farthest = 100.0;
constexpr double step = 1.25;

class Relief {
  public:
    Relief(const FullestLimits& limits, Units units, const TaskOf& task_of)
        : limits_(limits), units_(units), task_of_(task_of) {}

    std::optional<TypedLimit> nearest() {
        std::optional<FullestLimit> found;
        double least = farthest;
        for (const FullestLimit limit : all_fullest_limits) {
            if (limit_in(limits_, limit) == nullptr) continue;
            const auto factor = least_factor(limit, least);
            if (factor) found = limit, least = *factor;
        }
        return found ? tried(*found, least) : std::nullopt;
    }

  private:
    /// The value of a limit that is laxer by a factor.
    [[nodiscard]] double value(FullestLimit limit, double factor) const {
        const double given = *limit_in(limits_, limit);
        return is_least(limit) ? given / factor : given * factor;
    }
    [[nodiscard]] FullestTask with(FullestLimit limit, double to) const {
        FullestLimits changed = limits_;
        set_limit(changed, limit, to);
        return task_of_(changed);
    }
    [[nodiscard]] bool works(FullestLimit limit, double factor) const {
        return least_excess(with(limit, value(limit, factor))) <= 0.0;
    }

    /// The smallest factor that works, if it is below `most`.
    [[nodiscard]] std::optional<double> least_factor(FullestLimit limit, double most) const {
        constexpr double precision = 1e-5;
        if (!works(limit, most)) return std::nullopt;
        double bad = 1.0, good = std::min(step, most);
        while (good < most && !works(limit, good))
            bad = good, good = std::min(step * good, most);
        while (good - bad > precision * bad) {
            const double middle = 0.5 * (good + bad);
            (works(limit, middle) ? good : bad) = middle;
        }
        return good;
    }

    /// The value as it can be typed, a little laxer where the knots want that.
    [[nodiscard]] std::optional<TypedLimit> tried(FullestLimit limit, double factor) const {
        constexpr double little = 1.001;
        constexpr int most_tries = 20;
        for (int i = 0; i < most_tries; ++i, factor *= little) {
            const TypedLimit typed = typed_limit(limit, value(limit, factor), units_);
            FullestTask task = with(limit, typed.value);
            if (fullest_lift(task)) return typed;
        }
        return std::nullopt;
    }

    const FullestLimits& limits_;
    Units units_;
    const TaskOf& task_of_;
};

}  // namespace

std::optional<TypedLimit> nearest_relief(const FullestLimits& limits, Units units, const TaskOf& task_of) {
    return Relief(limits, units, task_of).nearest();
}

}  // namespace lobewright::profile
