#include "toolpath/refusal.h"

namespace lobewright::toolpath {

std::string lobe_key(std::size_t entry) {
    return "lobe[" + std::to_string(entry) + "]";
}

}  // namespace lobewright::toolpath
