// A shared library of the consumer's own that contains the archive.
#include <lobewright/lobe.h>

std::size_t lobes_of(const lobewright::Job& job) {
    auto lobes = lobewright::solve_lobes(job);
    return lobes ? lobes.value().size() : 0;
}
