#include "profile/shape/shape_shelf.h"

#include <algorithm>
#include <utility>

namespace lobewright {
namespace {

std::size_t parts_of(const profile::ShapeCause& cause, const SolvedLobe& shape) {
    const auto* table = std::get_if<TableProfile>(&cause.profile);
    return shape.motion.pieces().size() + (table == nullptr ? 0 : table->readings.size());
}

}  // namespace

const SolvedLobe* KnownShapes::Shelf::find(const profile::ShapeCause& cause) {
    const auto found =
        std::find_if(all_.begin(), all_.end(), [&](const Known& each) { return each.cause == cause; });
    if (found == all_.end()) return nullptr;
    all_.splice(all_.begin(), all_, found);
    return &all_.front().shape;
}

void KnownShapes::Shelf::put(profile::ShapeCause cause, const SolvedLobe& shape) {
    ++solved_;
    const std::size_t parts = parts_of(cause, shape);
    if (parts > most_parts_) return;
    for (; parts_ + parts > most_parts_; all_.pop_back())
        parts_ -= all_.back().parts;
    all_.push_front({std::move(cause), shape, parts});
    parts_ += parts;
}

KnownShapes::KnownShapes(std::size_t most_parts) : shelf_(std::make_unique<Shelf>(most_parts)) {}
KnownShapes::~KnownShapes() = default;

std::size_t KnownShapes::parts() const {
    return shelf_->parts();
}
std::size_t KnownShapes::solved() const {
    return shelf_->solved();
}

}  // namespace lobewright
