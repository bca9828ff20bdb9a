/// Job files drawn at random, as text: whole shafts with everything that a job may have, and the same with
/// hostile figures in them.
#pragma once

#include <random>
#include <string>

/// Draws job files. Equal seeds draw equal files. What a file says may still be refused: a nose that can't
/// exist, a cutter that is too large.
class RandomJobText {
  public:
    explicit RandomJobText(unsigned seed) : engine_(seed) {}

    /// A job within the trade: one or two lobes, a bar that often is exactly as large as the highest nose,
    /// hand methods, a machine.
    std::string fair();
    /// A fair job of which one or two figures are replaced by such as nobody means.
    std::string hostile();

  private:
    double between(double low, double high);
    int pick(int low, int high);
    bool chance(double share);
    std::string one_of(std::initializer_list<const char*> words);
    std::string number(double low, double high, int decimals);

    std::string profile(double base, double lift);
    std::string follower(double base);
    std::string lobes(bool engine);
    std::string machine();
    std::string hand();

    std::mt19937 engine_;
};
