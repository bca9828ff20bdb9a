#include "near.h"

#include <cmath>
#include <cstdio>

bool Near::match(const double& value) const {
    off_ = value - wanted_;
    return std::abs(off_) <= margin_;
}

std::string Near::describe() const {
    char words[160];
    std::snprintf(words, sizeof words, "is within %.3g of %.17g (off by %.3g)", margin_, wanted_, off_);
    return words;
}
