# Which commit `--version` names: in a tree of git, in another project's tree, in what git has packed, and without git.
#   cmake -D SOURCE=... -D WORK=... -P version_test.cmake

# The changelog begins with the version that is being built.
file(STRINGS ${SOURCE}/CMakeLists.txt project REGEX "^project\\(lobewright VERSION" LIMIT_COUNT 1)
string(REGEX MATCH "[0-9]+\\.[0-9]+\\.[0-9]+" version "${project}")
file(STRINGS ${SOURCE}/src/package/changelog first LIMIT_COUNT 1)
if(NOT version OR NOT first MATCHES "^lobewright \\(${version}\\) ")
    message(FATAL_ERROR "version ${version} is being built, and the changelog begins with: ${first}")
endif()

set(script ${SOURCE}/src/package/version_text.cmake)
file(REMOVE_RECURSE ${WORK})
set(tree ${WORK}/tree)
file(MAKE_DIRECTORY ${tree}/src/package)

function(run)
    execute_process(COMMAND ${ARGV} WORKING_DIRECTORY ${tree} COMMAND_ERROR_IS_FATAL ANY OUTPUT_VARIABLE output ERROR_QUIET
                    OUTPUT_STRIP_TRAILING_WHITESPACE)
    set(output "${output}" PARENT_SCOPE)
endfunction()

function(hold source wanted)
    run(${CMAKE_COMMAND} -D SOURCE=${source} -D VERSION=1.2.3 "-DBUILT=built so" -D OUTPUT=${WORK}/text.cpp -P ${script})
    file(READ ${WORK}/text.cpp text)
    string(FIND "${text}" "return \"lobewright 1.2.3${wanted}\\nbuilt so\\n\";" at)
    if(at EQUAL -1)
        message(FATAL_ERROR "wanted '${wanted}' of ${source}, got:\n${text}")
    endif()
endfunction()

file(WRITE ${tree}/src/package/archived_commit.txt "$Format:%h$\n")
file(WRITE ${tree}/src/package/.gitattributes "archived_commit.txt export-subst\n")
set(ENV{GIT_CEILING_DIRECTORIES} ${WORK})  # the build folder may lie in a tree of its own
hold(${tree} "")

find_program(git git)
if(NOT git)
    message("SKIPPED: git is not installed")
    return()
endif()
set(as git -c user.name=a -c user.email=a@b.invalid -c init.defaultBranch=main)
run(${as} init)
run(${as} add .)
run(${as} commit -m one)
run(${as} rev-parse --short HEAD)
set(commit ${output})
hold(${tree} " (git ${commit})")
run(${as} tag -a v1 -m v1)
hold(${tree} " (git v1)")
file(APPEND ${tree}/src/package/.gitattributes "# changed\n")
hold(${tree} " (git v1-dirty)")

run(${as} archive --prefix=packed/ -o ${WORK}/packed.tar HEAD)
run(${CMAKE_COMMAND} -E chdir ${WORK} ${CMAKE_COMMAND} -E tar xf packed.tar)
hold(${WORK}/packed " (git ${commit})")

file(COPY ${tree}/src DESTINATION ${tree}/taken-in)
hold(${tree}/taken-in "")
file(REMOVE_RECURSE ${WORK})
