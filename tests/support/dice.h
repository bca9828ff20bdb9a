/// A source of chance that is the same on every machine.
#pragma once

#include <random>
#include <vector>

/// The same seed gives the same numbers everywhere: no library distribution is used.
class Dice {
  public:
    explicit Dice(unsigned seed) : engine_(seed) {}
    /// From `low` to `high`, both included.
    int roll(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
    }
    bool one_in(int n) { return roll(1, n) == 1; }
    /// Between two numbers, in steps of their difference by a million.
    double between(double low, double high) { return low + (high - low) * roll(0, 1000000) / 1e6; }
    template <class T>
    const T& of(const std::vector<T>& items) {
        return items[static_cast<std::size_t>(roll(0, static_cast<int>(items.size()) - 1))];
    }

  private:
    std::mt19937 engine_;
};
