#include "toolpath/refusal.h"

namespace lobewright::toolpath {

Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy) {
    return {Fault::check_failed, Severity::error,   std::move(code),
            std::move(what),     std::move(remedy), job.place_of(path)};
}

Diagnostic missing(const Job& job, std::string_view path, std::string what, std::string remedy) {
    return {Fault::bad_input, Severity::error,   "missing-key",
            std::move(what),  std::move(remedy), job.place_of(path)};
}

std::string lobe_key(std::size_t entry) {
    return "lobe[" + std::to_string(entry) + "]";
}

}  // namespace lobewright::toolpath
