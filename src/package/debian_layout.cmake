# Makes of what was installed for a package what Debian expects: compressed manual and changelog, zsh's completions in
# the packages' folder, and a word on the licence, with the notices of the libraries that are compiled in. CPack runs it before it packs.

include(${CMAKE_CURRENT_LIST_DIR}/notices.cmake)
add_library_notices(notices "${CPACK_LOBEWRIGHT_LIBRARIES}")

function(compress)
    execute_process(COMMAND gzip -9 -n ${ARGV} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

file(GLOB parts ${CPACK_TEMPORARY_DIRECTORY}/*)
foreach(part ${parts})
    set(share ${part}/usr/share)
    get_filename_component(name ${part} NAME)
    if(name STREQUAL "program")
        set(package lobewright)
        compress(${share}/man/man1/lobewright.1)
        file(RENAME ${share}/zsh/site-functions ${share}/zsh/vendor-completions)
    else()
        set(package liblobewright-dev)
        file(MAKE_DIRECTORY ${share}/doc/${package})
        file(COPY ${CMAKE_CURRENT_LIST_DIR}/changelog DESTINATION ${share}/doc/${package})
    endif()
    compress(${share}/doc/${package}/changelog)
    file(WRITE ${share}/doc/${package}/copyright
        "No licence has been chosen for lobewright yet. That is for its owner to do; until then, ask the owner.\n\n"
        "Compiled in are parts of these libraries.\n\n\n${notices}")
endforeach()
