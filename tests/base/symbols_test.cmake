# Of the C library's mathematics the built library takes only what IEEE 754 settles to the last bit, the libraries of
# others and what compilers make of our code included. And no stage ends the program, prints, reads a file, a clock or the
# environment, or has a global setting of the C library's changed.
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
string(CONCAT outside "U _?(_?exit|quick_exit|abort|[vf]*printf|f?puts|putchar|fopen(64)?|open(64)?|read|write|[sg]etenv|system|time|"
              "clock|clock_gettime|gettimeofday|setlocale|s?rand|_ZSt4c(out|err|log)|_ZSt3cin|_ZNSt1[0-9]basic_[io]?f[a-z]*Ic[^\n]*|"
              "_ZNSt6chrono[^\n]*|_ZNSt10filesystem[^\n]*|_ZNSt13random_device[^\n]*)\n")
string(REGEX MATCHALL "${outside}" reached "${symbols}")
if(reached)
    message(FATAL_ERROR "the library reaches out of its own world by ${reached}")
endif()
