# Of the C library's mathematics the built library takes only what IEEE 754 settles to the last bit, the libraries of
# others and what compilers make of our code included.
#
# Variables: NM, LIBRARY
execute_process(COMMAND ${NM} -u ${LIBRARY} OUTPUT_VARIABLE symbols RESULT_VARIABLE failed ERROR_QUIET)
if(failed)
    message(FATAL_ERROR "nm can't read ${LIBRARY}")
endif()
if(NOT symbols MATCHES "U _?sqrt")
    message(FATAL_ERROR "a list of symbols without sqrt is not that of the whole library")
endif()
string(REGEX MATCHALL "U _?(a?(sin|cos|tan)h?|atan2|sincos|exp|exp2|expm1|log|log2|log10|log1p|pow|cbrt|hypot|fma|[lt]gamma|erfc?)[fl]?\n"
       foreign "${symbols}")
if(foreign)
    message(FATAL_ERROR "the library calls ${foreign}")
endif()
