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
    /// Cells of figures stand to the right. `about`: what it holds, for those who hear the page.
    void table(const std::string& about, const std::vector<std::string>& heads,
               const std::vector<std::vector<std::string>>& rows);
    /// An empty place that a script fills.
    void place(const std::string& kind, std::size_t index);
    /// What stands until end_folded() is unfolded by a click, and on paper.
    void folded(const std::string& summary);
    void end_folded() { text_ += "</details>\n"; }
    /// A drawing, which a small screen shows in part rather than too small to be read. `about`: as a table's.
    void drawing(const std::string& about, const std::string& svg) {
        scrolled("drawn", about);
        text_ += svg + "</div>\n";
    }
    /// Mark-up of our own.
    void raw(const std::string& markup) { text_ += markup; }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    void element(const std::string& name, const std::string& text);
    /// Opens a place of a class that can be scrolled sideways, by keys too.
    void scrolled(const std::string& kind, const std::string& about);

    std::string text_;
};

}  // namespace lobewright::sheet
