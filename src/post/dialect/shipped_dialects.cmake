# Writes OUTPUT, the C++ source of shipped_dialects(), from the TOML files FILES:
#   cmake "-DFILES=a.toml;b.toml" -DOUTPUT=shipped_dialects.cpp -P shipped_dialects.cmake
list(SORT FILES)
set(entries "")
foreach(file IN LISTS FILES)
    get_filename_component(name ${file} NAME_WE)
    file(READ ${file} text)
    string(REPLACE "\r\n" "\n" text "${text}")
    if(text MATCHES "[)]dialect\"")
        message(FATAL_ERROR "${file} holds the mark that ends it in the source: )dialect\"")
    endif()
    string(APPEND entries "    {\"${name}\", R\"dialect(${text})dialect\"},\n")
endforeach()
file(WRITE ${OUTPUT} "// Made from postprocessors/ by src/post/dialect/shipped_dialects.cmake.
#include <lobewright/shipped_dialects.h>

namespace lobewright {
namespace {

constexpr ShippedDialect shipped[] = {
${entries}};

}  // namespace

std::span<const ShippedDialect> shipped_dialects() {
    return shipped;
}

}  // namespace lobewright
")
