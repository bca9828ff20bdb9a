# Installs the project into a fresh folder, moves that folder, and uses it there: a consumer's project finds the library,
# builds and runs; the program finds its post-processors. Then a consumer takes the sources as a folder of its own
# (configured only: building everything anew would take minutes).
#   cmake -D SOURCE=... -D BUILD=... -D WORK=... -D COMPILER=... -D CONFIG=... [-D FLAGS=... -D SANITIZE=...] -P consumer_test.cmake

function(run)
    execute_process(COMMAND ${ARGV} RESULT_VARIABLE code OUTPUT_VARIABLE output ERROR_VARIABLE output)
    if(NOT code EQUAL 0)
        message(FATAL_ERROR "${ARGV}\nended with ${code}:\n${output}")
    endif()
    set(output "${output}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${WORK})
set(consumer ${SOURCE}/tests/cli/consumer)
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/made)
file(RENAME ${WORK}/made ${WORK}/moved)

run(${CMAKE_COMMAND} -S ${consumer} -B ${WORK}/installed -DCMAKE_CXX_COMPILER=${COMPILER}
    -DCMAKE_PREFIX_PATH=${WORK}/moved ${FLAGS})
run(${CMAKE_COMMAND} --build ${WORK}/installed)
run(${WORK}/installed/consumer)
if(NOT output MATCHES "leaves the base circle at -[0-9]")
    message(FATAL_ERROR "the consumer said: ${output}")
endif()

# By pkg-config too, where it is installed: its file goes by its own place.
find_program(pkg_config pkg-config)
if(pkg_config)
    file(GLOB_RECURSE pc_file ${WORK}/moved/lobewright.pc)
    run(${pkg_config} --cflags --libs ${pc_file})
    separate_arguments(flags UNIX_COMMAND "${output}")
    run(${COMPILER} -std=c++20 ${SANITIZE} ${consumer}/consumer.cpp ${flags} -o ${WORK}/by-pkg-config)
    run(${WORK}/by-pkg-config)
    if(NOT output MATCHES "leaves the base circle at -[0-9]")
        message(FATAL_ERROR "the consumer by pkg-config said: ${output}")
    endif()
endif()

set(documents ${WORK}/moved/share/doc/lobewright)
foreach(wanted README.md DEVELOPERS.md changelog examples/basalt-four.toml examples/job-file.md postprocessors/README.md
               postprocessors/rs274ngc-xza.toml)
    if(NOT EXISTS ${documents}/${wanted})
        message(FATAL_ERROR "${wanted} is not installed beside the program's other papers")
    endif()
endforeach()
# What README links to lies where it says.
file(READ ${documents}/README.md readme)
string(REGEX MATCHALL "\\([A-Za-z][A-Za-z0-9./_-]*\\.(md|toml|svg)" links "${readme}")
if(NOT links)
    message(FATAL_ERROR "no link was found in README")
endif()
foreach(link ${links})
    string(SUBSTRING "${link}" 1 -1 link)
    if(NOT EXISTS ${documents}/${link})
        message(FATAL_ERROR "the installed README links to ${link}, which isn't there")
    endif()
endforeach()
run(${WORK}/moved/bin/lobewright check ${documents}/examples/basalt-four.toml)

run(${WORK}/moved/bin/lobewright posts)
if(NOT output MATCHES "rs274ngc-xza")
    message(FATAL_ERROR "the installed program does not find its post-processors: ${output}")
endif()
file(STRINGS ${WORK}/moved/bin/lobewright leaked REGEX "${SOURCE}/(src|postprocessors|include)")
# Debug information, and what the sanitizers say (their flags tell them), name the sources by right.
if(leaked AND CONFIG STREQUAL "Release" AND NOT FLAGS)
    message(FATAL_ERROR "the installed program names the folder that it was built from: ${leaked}")
endif()

run(${CMAKE_COMMAND} -S ${consumer} -B ${WORK}/as-folder -DCMAKE_CXX_COMPILER=${COMPILER}
    -DLOBEWRIGHT_AS_FOLDER=${SOURCE} -DBUILD_SHARED_LIBS=ON)
run(${CMAKE_COMMAND} --install ${WORK}/as-folder --prefix ${WORK}/theirs)  # theirs installs nothing, and so do we
if(EXISTS ${WORK}/theirs/include/lobewright)
    message(FATAL_ERROR "a consumer's install step installs us")
endif()
file(REMOVE_RECURSE ${WORK})
