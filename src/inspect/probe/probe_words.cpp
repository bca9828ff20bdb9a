#include "inspect/probe/probe_words.h"

#include "base/text/length_text.h"

namespace lobewright::inspection {

std::string probe_words(const Probe& probe, Units units) {
    switch (probe.kind) {
        case ProbeKind::flat:
            return "a flat anvil";
        case ProbeKind::ball:
            return "a ball of radius " + length_words(probe.radius, units);
        case ProbeKind::knife:
            return "a knife edge";
    }
    return {};
}

}  // namespace lobewright::inspection
