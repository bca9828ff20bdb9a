#include "cli/system/system_reason.h"

#include <cerrno>
#include <cstring>

namespace lobewright::cli {

std::string system_reason(int number) {
    switch (number) {
        case ENOENT:
            return "there is no such file or folder";
        case ENOTDIR:
            return "what should be a folder is a file";
        case EISDIR:
            return "it is a folder";
        case EACCES:
        case EPERM:
            return "you may not";
        case EROFS:
            return "the disk is write-protected";
        case ENOSPC:
#ifdef EDQUOT  // the user's share of it
        case EDQUOT:
#endif
            return "the disk is full";
        case EFBIG:
            return "it would be larger than files may be here";
        case ELOOP:
            return "its links lead round in a circle";
        case ENAMETOOLONG:
            return "the name is too long";
        case EBUSY:
            return "something else uses it";
        case EILSEQ:
            return "no file can have this name";
        case EPIPE:
            return "nobody reads it any more";
        default:
            return std::strerror(number);
    }
}

}  // namespace lobewright::cli
