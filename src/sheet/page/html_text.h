/// HTML, element by element; all that is given as text is text.
///
/// This folder holds the page that reads without a script: its sections, one after the other.
#pragma once

#include <string>
#include <vector>

namespace lobewright::sheet {

class HtmlText {
  public:
    /// <section id> with its heading; until end_section().
    void section(const std::string& id, const std::string& heading);
    void end_section() { text_ += "</section>\n"; }
    void heading(const std::string& text) { element("h3", text); }
    void paragraph(const std::string& text) { element("p", text); }
    void list(const std::vector<std::string>& items);
    /// Cells of figures stand to the right.
    void table(const std::vector<std::string>& heads, const std::vector<std::vector<std::string>>& rows);
    /// An empty place that a script fills.
    void place(const std::string& kind, std::size_t index);
    void folded(const std::string& summary, const std::string& preformatted);
    /// Mark-up of our own.
    void raw(const std::string& markup) { text_ += markup; }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    void element(const std::string& name, const std::string& text);

    std::string text_;
};

}  // namespace lobewright::sheet
