#include "cli/system/last_words.h"

#include <exception>
#include <new>

namespace lobewright::cli {
namespace {

constexpr int exit_bug = 70;

[[noreturn]] void end_at_once() {
    try {
        if (const std::exception_ptr current = std::current_exception()) std::rethrow_exception(current);
    } catch (const std::bad_alloc&) {
        end_with(out_of_memory, exit_bug);
    } catch (...) {
    }
    end_with("lobewright: stopped by a bug of ours: please report it together with the job file\n", exit_bug);
}

}  // namespace

void end_at_once_when_lost() {
    std::set_terminate(end_at_once);
}

}  // namespace lobewright::cli
