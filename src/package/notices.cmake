# Gathers the notices of the libraries that are compiled in, for those who get program or page without sources: from the
# copyright files of the packages that the libraries come from, or where no package does from the licence beside them.
#   cmake -D "LIBRARIES=Boost=/usr/include/boost/version.hpp;..." [-D EMSCRIPTEN=FOLDER] -D OUTPUT=FILE -P notices.cmake

# Appends to `result` what its package says of the files `wanted` (see notices.awk), or the texts of the files that follow.
function(add_notice result title marker wanted)
    file(REAL_PATH ${marker} marker)
    execute_process(COMMAND dpkg-query -S ${marker} OUTPUT_VARIABLE owner ERROR_QUIET RESULT_VARIABLE unknown)
    string(REGEX MATCH "^[^:, ]+" package "${owner}")
    set(copyright /usr/share/doc/${package}/copyright)
    set(text "")
    if(package AND EXISTS ${copyright})
        execute_process(COMMAND awk -v "wanted=${wanted}" -f ${CMAKE_CURRENT_FUNCTION_LIST_DIR}/notices.awk ${copyright} ${copyright}
                        OUTPUT_VARIABLE text COMMAND_ERROR_IS_FATAL ANY)
    else()
        foreach(licence ${ARGN})
            if(EXISTS ${licence})
                file(READ ${licence} more)
                string(APPEND text "${more}\n")
            endif()
        endforeach()
    endif()
    string(STRIP "${text}" text)
    if(text STREQUAL "")
        message(FATAL_ERROR "${title}: no notice can be found, of which binaries need a copy: ${marker} belongs to no package "
                            "of this system, and no licence lies beside it")
    endif()
    set(${result} "${${result}}${title}\n\n${text}\n\n\n" PARENT_SCOPE)
endfunction()

# Of header-only libraries, each NAME=HEADER.
function(add_library_notices result libraries)
    set(all "${${result}}")
    foreach(library ${libraries})
        string(REGEX MATCH "^([^=]+)=(.*)$" matched ${library})
        set(header ${CMAKE_MATCH_2})
        get_filename_component(folder ${header} DIRECTORY)
        add_notice(all "${CMAKE_MATCH_1}" ${header} "* include/" ${folder}/LICENSE)
    endforeach()
    set(${result} "${all}" PARENT_SCOPE)
endfunction()

# Of the C and C++ libraries that Emscripten links in.
function(add_emscripten_notice result folder)
    set(parts libc/musl libcxx libcxxabi libunwind compiler-rt dlmalloc.c)
    list(TRANSFORM parts PREPEND system/lib/)
    set(licences ${folder}/LICENSE)
    foreach(part ${parts})
        list(APPEND licences ${folder}/${part}/COPYRIGHT ${folder}/${part}/LICENSE.TXT)
    endforeach()
    list(JOIN parts " " wanted)
    set(all "${${result}}")
    add_notice(all "Emscripten, with its C and C++ libraries" ${folder}/emcc.py "* ${wanted}" ${licences})
    set(${result} "${all}" PARENT_SCOPE)
endfunction()

# Of what a program for Windows is linked with beside GCC's own libraries, which ask for none.
function(add_windows_notice result compiler)
    execute_process(COMMAND ${compiler} -print-file-name=libmingwex.a OUTPUT_VARIABLE runtime OUTPUT_STRIP_TRAILING_WHITESPACE)
    set(threads mingw-w64-libraries/winpthreads)
    set(all "${${result}}")
    add_notice(all "The Windows libraries of mingw-w64" ${runtime} "* mingw-w64-crt/ ${threads}/* ${threads}/src/ ${threads}/include/")
    set(${result} "${all}" PARENT_SCOPE)
endfunction()

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
    add_library_notices(notices "${LIBRARIES}")
    if(EMSCRIPTEN)
        add_emscripten_notice(notices ${EMSCRIPTEN})
    endif()
    file(WRITE ${OUTPUT} "${notices}")
endif()
