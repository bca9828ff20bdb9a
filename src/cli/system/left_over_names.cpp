#include "cli/system/left_over_names.h"

#include "cli/system/path_text.h"

#include <cstdint>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::string_view ending = ".part";

/// FNV-1a: tells long names apart that begin alike.
std::string number_for(std::string_view name) {
    std::uint64_t hash = 14695981039346656037u;
    for (const char c : name)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211u;
    return std::to_string(hash);
}

/// At most so many bytes of it, no character of UTF-8 cut in two.
std::string begun(const std::string& name, std::size_t bytes) {
    while (bytes > 0 && (static_cast<unsigned char>(name[bytes]) & 0xC0u) == 0x80u)
        --bytes;
    return name.substr(0, bytes);
}

/// "123-0": process and attempt.
bool is_mark(std::string_view text) {
    const std::size_t dash = text.find('-');
    const auto digits = [](std::string_view part) {
        return !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos;
    };
    return dash != std::string_view::npos && digits(text.substr(0, dash)) && digits(text.substr(dash + 1));
}

}  // namespace

std::string left_over_beginning(const fs::path& target) {
    // So that process and attempt still fit into the 255 bytes, or units of UTF-16, of a file's name.
    constexpr std::size_t longest = 180;
    std::string name = text_of(target.filename());
    if (name.size() > longest) name = begun(name, longest) + number_for(name);
    return '.' + name + ".lobewright-";
}

std::string left_over_ending(unsigned long process, int attempt) {
    return std::to_string(process) + '-' + std::to_string(attempt) + std::string(ending);
}

bool is_left_over(std::string_view name, std::string_view beginning) {
    if (!name.starts_with(beginning) || !name.ends_with(ending)) return false;
    name.remove_prefix(beginning.size());
    return name.size() > ending.size() && is_mark(name.substr(0, name.size() - ending.size()));
}

}  // namespace lobewright::cli
