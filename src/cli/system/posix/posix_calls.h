/// Calls of the system that a signal may break off, made again until they are through.
#pragma once

#include <cerrno>
#include <poll.h>
#include <string_view>

namespace lobewright::cli {

/// Waits until an open file takes or gives again: one that was opened by somebody else may not wait by
/// itself.
inline bool await(int file, short what) {
    pollfd one{file, what, 0};
    return ::poll(&one, 1, -1) >= 0 || errno == EINTR;
}

/// What `call` returns, which is -1 where it fails, with errno.
template <class Call>
auto until_through(Call call) {
    auto result = call();
    while (result == -1 && errno == EINTR)
        result = call();
    return result;
}

/// Likewise of reading (POLLIN) or writing (POLLOUT), also where the file doesn't wait by itself.
template <class Call>
auto until_through(int file, short what, Call call) {
    auto result = until_through(call);
    while (result == -1 && (errno == EAGAIN || errno == EWOULDBLOCK) && await(file, what))
        result = until_through(call);
    return result;
}

/// Every byte, whatever the number of pieces the system takes it in; false with errno.
bool write_all(int file, std::string_view text);

}  // namespace lobewright::cli
