#include <lobewright/job.h>

namespace lobewright {

Place Job::place_of(std::string_view path) const {
    while (!path.empty()) {
        if (const auto found = places.find(path); found != places.end()) return found->second;
        const auto end = path.find_last_of(".[");
        path = end == std::string_view::npos ? std::string_view{} : path.substr(0, end);
    }
    return Place{file, 0, 0};
}

}  // namespace lobewright
