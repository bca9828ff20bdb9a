// What a changed place of the source asks: whether its change is the one that works now.
#pragma once

#include <initializer_list>
#include <type_traits>

namespace lobewright_mutants {

inline constexpr int most_places = 4096;

extern int chosen;  // 0: none
extern unsigned char*
    seen;  // by place: whether it was run through; shared with the processes that are started

inline bool on(int place) {
    seen[place] = 1;
    return chosen == place;
}

/// Between two of the same operator: a + Op(7) + b is a + b, or a - b if the seventh change works. It binds
/// as they do.
struct Op {
    int place;
    explicit constexpr Op(int number) : place(number) {}
};

template <class A>
struct Half {
    const A& a;
    int place;
};

#define LOBEWRIGHT_HALF(sign)                  \
    template <class A>                         \
    Half<A> operator sign(const A& a, Op op) { \
        return {a, op.place};                  \
    }
LOBEWRIGHT_HALF(+)
LOBEWRIGHT_HALF(-)
LOBEWRIGHT_HALF(*)
LOBEWRIGHT_HALF(/)
LOBEWRIGHT_HALF(<)
LOBEWRIGHT_HALF(>)
LOBEWRIGHT_HALF(<=)
LOBEWRIGHT_HALF(>=)
LOBEWRIGHT_HALF(==)
LOBEWRIGHT_HALF(!=)
#undef LOBEWRIGHT_HALF

template <class A, class B>
auto operator+(Half<A> h, const B& b) {
    using Sum = std::decay_t<decltype(h.a + b)>;
    return on(h.place) ? static_cast<Sum>(h.a - b) : static_cast<Sum>(h.a + b);
}

template <class A, class B>
auto operator-(Half<A> h, const B& b) {
    using Difference = std::decay_t<decltype(h.a - b)>;
    return on(h.place) ? static_cast<Difference>(h.a + b) : static_cast<Difference>(h.a - b);
}

/// What can't be divided changes its sign.
template <class A, class B>
auto operator*(Half<A> h, const B& b) {
    using Product = std::decay_t<decltype(h.a * b)>;
    if (!on(h.place)) return static_cast<Product>(h.a * b);
    if constexpr (requires { static_cast<Product>(h.a / b); })
        return static_cast<Product>(h.a / b);
    else
        return static_cast<Product>(-(h.a * b));
}

template <class A, class B>
auto operator/(Half<A> h, const B& b) {
    using Quotient = std::decay_t<decltype(h.a / b)>;
    return on(h.place) ? static_cast<Quotient>(h.a * b) : static_cast<Quotient>(h.a / b);
}

template <class A, class B>
inline constexpr bool whole = std::is_integral_v<A>&& std::is_integral_v<B>;

// Of whole numbers the limit moves by one; of others, where that would change nothing, the comparison turns
// round.
#define LOBEWRIGHT_COMPARISON(sign, other, reverse)             \
    template <class A, class B>                                 \
    bool operator sign(Half<A> h, const B& b) {                 \
        if (!on(h.place)) return static_cast<bool>(h.a sign b); \
        if constexpr (whole<A, B>)                              \
            return static_cast<bool>(h.a other b);              \
        else                                                    \
            return static_cast<bool>(h.a reverse b);            \
    }
LOBEWRIGHT_COMPARISON(<, <=, >=)
LOBEWRIGHT_COMPARISON(>, >=, <=)
LOBEWRIGHT_COMPARISON(<=, <, >)
LOBEWRIGHT_COMPARISON(>=, >, <)
LOBEWRIGHT_COMPARISON(==, !=, !=)
LOBEWRIGHT_COMPARISON(!=, ==, ==)
#undef LOBEWRIGHT_COMPARISON

/// In the place of a minus before an operand.
struct Sign {
    int place;
    explicit constexpr Sign(int number) : place(number) {}
};

template <class A>
auto operator*(Sign sign, const A& a) {
    using Result = std::decay_t<decltype(-a)>;
    return on(sign.place) ? static_cast<Result>(a) : static_cast<Result>(-a);
}

/// In the place of std::max and std::min.
template <int place, class T>
T max_of(const T& a, const T& b) {
    return (a < b) != on(place) ? b : a;
}
template <int place, class T>
T max_of(std::initializer_list<T> all) {
    T found = *all.begin();
    for (const T& a : all)
        found = max_of<place>(found, a);
    return found;
}
template <int place, class T>
T min_of(const T& a, const T& b) {
    return (b < a) != on(place) ? b : a;
}
template <int place, class T>
T min_of(std::initializer_list<T> all) {
    T found = *all.begin();
    for (const T& a : all)
        found = min_of<place>(found, a);
    return found;
}

}  // namespace lobewright_mutants
