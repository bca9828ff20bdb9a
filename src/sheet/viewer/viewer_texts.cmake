# Writes OUTPUT, the C++ source of viewer_style() and viewer_script(), from the viewer's FILES:
#   cmake "-DFILES=page.css;tools.js" -DOUTPUT=viewer_texts.cpp -P viewer_texts.cmake
# Compilers take no string longer than 64 kB, so that each file is a text of its own.
set(style "")
set(scripts "")
foreach(file IN LISTS FILES)
    file(READ ${file} text)
    string(REPLACE "\r\n" "\n" text "${text}")
    if(text MATCHES "[)]viewer\"" OR text MATCHES "</script" OR text MATCHES "</style")
        message(FATAL_ERROR "${file} holds what would end it in the source or in the page")
    endif()
    if(file MATCHES "[.]css$")
        string(APPEND style "    R\"viewer(${text})viewer\"\n")
    else()
        string(APPEND scripts "    R\"viewer(${text})viewer\",\n")
    endif()
endforeach()
file(WRITE ${OUTPUT} "// Made from src/sheet/viewer/ by viewer_texts.cmake.
#include \"sheet/page/viewer_texts.h\"

namespace lobewright::sheet {
namespace {

constexpr const char* scripts[] = {
${scripts}};

}  // namespace

const char* viewer_style() {
    return
${style}    ;
}

std::span<const char* const> viewer_scripts() {
    return scripts;
}

}  // namespace lobewright::sheet
")
