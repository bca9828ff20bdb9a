/// Solved shapes by their causes.
#pragma once

#include "profile/shape/shape_cause.h"

#include <lobewright/known_shapes.h>
#include <lobewright/lobe.h>

#include <list>

namespace lobewright {

class KnownShapes::Shelf {
  public:
    explicit Shelf(std::size_t most_parts) : most_parts_(most_parts) {}

    /// The shape of that cause; null where none is held. It stays until the next `put`.
    const SolvedLobe* find(const profile::ShapeCause& cause);
    /// Of a cause that `find` did not find.
    void put(profile::ShapeCause cause, const SolvedLobe& shape);

    [[nodiscard]] std::size_t parts() const { return parts_; }
    [[nodiscard]] std::size_t solved() const { return solved_; }

  private:
    struct Known {
        profile::ShapeCause cause;
        SolvedLobe shape;
        std::size_t parts = 0;
    };
    std::list<Known> all_;  // the last one asked for stands in front
    std::size_t most_parts_;
    std::size_t parts_ = 0;
    std::size_t solved_ = 0;
};

}  // namespace lobewright
