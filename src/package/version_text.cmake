# Writes what `--version` prints: the project's version, the commit as git describes it, and what it was built with. Sources
# that git has packed without its folder know their commit from archived_commit.txt; others, and sources in another
# project's tree, go without.
#   cmake -D SOURCE=FOLDER -D VERSION=0.1.0 -D BUILT=TEXT -D OUTPUT=FILE.cpp -P version_text.cmake

function(git_says result)
    execute_process(COMMAND git -C ${SOURCE} ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE said ERROR_QUIET
                    OUTPUT_STRIP_TRAILING_WHITESPACE)
    if(NOT code EQUAL 0)
        set(said "none")
    endif()
    set(${result} "${said}" PARENT_SCOPE)
endfunction()

file(STRINGS ${SOURCE}/src/package/archived_commit.txt commit LIMIT_COUNT 1)
git_says(place rev-parse --show-prefix)  # nothing where SOURCE is the top of git's tree
if(place STREQUAL "")
    git_says(commit describe --always --dirty)
endif()

set(words "lobewright ${VERSION}")
if(commit MATCHES "^[0-9A-Za-z._-]+$" AND NOT commit STREQUAL "none")
    string(APPEND words " (git ${commit})")
endif()
set(text "#include \"cli/version_text.h\"

const char* lobewright::cli::version_text() {
    return \"${words}\\n${BUILT}\\n\";
}
")
file(CONFIGURE OUTPUT ${OUTPUT} CONTENT "${text}" @ONLY)  # touches nothing that stays the same
