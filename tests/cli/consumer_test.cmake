# Installs the project into a fresh folder, moves that folder, and uses it there: a consumer's project finds the library,
# builds and runs; the program finds its post-processors. Then a consumer takes the sources as a folder of its own
# (configured only: building everything anew would take minutes).
#   cmake -D SOURCE=... -D BUILD=... -D WORK=... -D COMPILER=... -D CONFIG=... [-D FLAGS=...] -P consumer_test.cmake

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
