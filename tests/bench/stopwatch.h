/// Times of work: by the clock on the wall, which other work on the machine lengthens, and by the processor's
/// own account, which it hardly does.
#pragma once

#include <algorithm>
#include <chrono>
#include <ostream>
#include <sys/resource.h>
#include <vector>

struct Spent {
    double wall = 0.0;       ///< s
    double processor = 0.0;  ///< s, of this process and of its children that have ended

    friend std::ostream& operator<<(std::ostream& out, const Spent& spent) {
        return out << spent.wall << " s (processor " << spent.processor << " s)";
    }
};

inline double processor_seconds() {
    double seconds = 0.0;
    for (const auto who : {RUSAGE_SELF, RUSAGE_CHILDREN}) {
        rusage used{};
        getrusage(who, &used);
        for (const timeval& time : {used.ru_utime, used.ru_stime})
            seconds += static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    }
    return seconds;
}

/// The median of each over so many runs.
template <class Work>
Spent median_spent(int runs, Work work) {
    std::vector<double> wall, processor;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const double before = processor_seconds();
        work();
        wall.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        processor.push_back(processor_seconds() - before);
    }
    const auto median = [&](std::vector<double>& times) {
        const auto middle = times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2);
        std::nth_element(times.begin(), middle, times.end());
        return *middle;
    };
    return {median(wall), median(processor)};
}
