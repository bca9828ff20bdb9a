#include "hand/wording/part_names.h"

namespace lobewright::hand {

std::string part_name(HandPart part) {
    switch (part) {
        case HandPart::heel:
            return "heel";
        case HandPart::facet:
            return "facet";
        default:
            return flank_word(part) + " flank";
    }
}

std::string flank_word(HandPart flank) {
    return flank == HandPart::opening_flank ? "opening" : "closing";
}

}  // namespace lobewright::hand
