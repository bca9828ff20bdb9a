/// JSON as examples/job-file.md promises it: members in the order they are given, numbers with nine decimals
/// at most and no exponent, the same bytes in every locale. The JSON library prints 0.0000001 as "1e-07", so
/// it only quotes the strings here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace lobewright {

/// Writes one JSON text from the top down:
///
///     JsonText json;
///     json.object().member("name", "1 inlet").member("lift", 2.4);
///     json.array("findings").end();
///     json.end();
///     return json.text();
class JsonText {
  public:
    enum class Layout {
        lines,     ///< every member on a line of its own, two spaces deeper
        one_line,  ///< the whole container, and all within, on the line it starts on
    };

    /// Opens a container: `name` is its name as a member of an object, left out at the top and inside an
    /// array.
    JsonText& object(std::string_view name = {}, Layout layout = Layout::lines);
    JsonText& array(std::string_view name = {}, Layout layout = Layout::lines);
    /// Closes the container that was opened last.
    JsonText& end();

    /// A member of an object. Absent values become null; a number that is not finite is a bug of the caller's
    /// (see number_text.h).
    template <class T>
    JsonText& member(std::string_view name, const T& value) {
        return put(name, token(value));
    }
    /// An item of an array.
    template <class T>
    JsonText& item(const T& value) {
        return put({}, token(value));
    }

    /// The text, with a newline at its end. Required: every container is closed.
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    struct Level {
        char closing;
        Layout layout;
        bool empty = true;
    };

    static std::string number(double value);
    static std::string quoted(std::string_view text);

    template <class T>
    static std::string token(const T& value) {
        if constexpr (std::is_same_v<T, bool>) {
            return value ? "true" : "false";
        } else if constexpr (std::is_integral_v<T>) {
            return std::to_string(value);
        } else if constexpr (std::is_floating_point_v<T>) {
            return number(value);
        } else if constexpr (std::is_null_pointer_v<T> || std::is_same_v<T, std::nullopt_t>) {
            return "null";
        } else if constexpr (std::is_convertible_v<T, std::string_view>) {
            return quoted(value);
        } else {
            return value ? token(*value) : "null";
        }
    }

    JsonText& open(std::string_view name, char opening, char closing, Layout layout);
    JsonText& put(std::string_view name, std::string_view token);
    void separate(bool first);

    std::string text_;
    std::vector<Level> levels_;
};

}  // namespace lobewright
