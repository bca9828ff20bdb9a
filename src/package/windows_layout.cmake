# Puts the notices of the libraries that are in the program beside it. CPack runs it before it packs.
include(${CMAKE_CURRENT_LIST_DIR}/notices.cmake)
add_library_notices(notices "${CPACK_LOBEWRIGHT_LIBRARIES}")
add_windows_notice(notices ${CPACK_LOBEWRIGHT_COMPILER})
file(WRITE ${CPACK_TEMPORARY_DIRECTORY}/notices.txt "${notices}")
