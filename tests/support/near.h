/// A margin around a wanted figure, as a matcher of Catch2: built out of line, since the tests ask it
/// hundreds of times and every assertion that is spelled out costs the compiler.
#pragma once

#include <string>

#if __has_include(<catch2/catch_test_macros.hpp>)
#include <catch2/matchers/catch_matchers.hpp>
using DoubleMatcher = Catch::Matchers::MatcherBase<double>;
#else
#include <catch2/catch.hpp>
using DoubleMatcher = Catch::MatcherBase<double>;
#endif

/// Holds for values with |value - wanted| <= margin, in the unit of the three; never for a NaN.
class Near final : public DoubleMatcher {
  public:
    Near(double wanted, double margin) : wanted_(wanted), margin_(margin) {}
    [[nodiscard]] bool match(const double& value) const override;
    [[nodiscard]] std::string describe() const override;

  private:
    double wanted_;
    double margin_;
    mutable double off_ = 0.0;  ///< of the value last matched, for the description
};
