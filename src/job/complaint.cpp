#include "job/complaint.h"

namespace lobewright {

Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy) {
    return {Fault::check_failed, Severity::error,    std::move(code),           std::move(what),
            std::move(remedy),   job.place_of(path), without_list_numbers(path)};
}

Diagnostic bad_key(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy) {
    return {Fault::bad_input,  Severity::error,    std::move(code),           std::move(what),
            std::move(remedy), job.place_of(path), without_list_numbers(path)};
}

}  // namespace lobewright
