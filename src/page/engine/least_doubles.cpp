// Emscripten's C library calls it a failure (ERANGE) where a text comes to a double below the least normal
// one, and its streams then read no number; elsewhere they read that double. The linker puts this in the
// place of strtod_l (its option --wrap).
#include <cerrno>
#include <cmath>
#include <cstdlib>
#include <locale.h>

extern "C" {

double __real_strtod_l(const char* text, char** end,
                       locale_t locale);  // NOLINT(bugprone-reserved-identifier)

double __wrap_strtod_l(const char* text, char** end,
                       locale_t locale) {  // NOLINT(bugprone-reserved-identifier)
    const int before = errno;
    const double value = __real_strtod_l(text, end, locale);
    if (errno == ERANGE && std::isfinite(value)) errno = before;
    return value;
}
}
