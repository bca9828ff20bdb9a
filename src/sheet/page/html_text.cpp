#include "sheet/page/html_text.h"

#include "base/text/markup.h"

#include <cctype>

namespace lobewright::sheet {
namespace {

bool is_figure(const std::string& cell) {
    return !cell.empty() &&
           (std::isdigit(static_cast<unsigned char>(cell.back())) != 0 || cell.ends_with("°")) &&
           (std::isdigit(static_cast<unsigned char>(cell.front())) != 0 || cell.front() == '-');
}

}  // namespace

void HtmlText::element(const std::string& name, const std::string& text) {
    text_ += '<' + name + '>' + escaped(text) + "</" + name + ">\n";
}

void HtmlText::scrolled(const std::string& kind, const std::string& about) {
    text_ +=
        "<div class=\"" + kind + "\" role=\"region\" tabindex=\"0\" aria-label=\"" + escaped(about) + "\">\n";
}

void HtmlText::section(const std::string& id, const std::string& heading) {
    text_ += "<section id=\"" + id + "\">\n";
    element("h2", heading);
}

void HtmlText::list(const std::vector<std::string>& items) {
    text_ += "<ul>\n";
    for (const std::string& item : items)
        element("li", item);
    text_ += "</ul>\n";
}

void HtmlText::table(const std::string& about, const std::vector<std::string>& heads,
                     const std::vector<std::vector<std::string>>& rows) {
    scrolled("table", about);
    text_ += "<table>\n<thead><tr>";
    for (const std::string& head : heads)
        text_ += "<th scope=\"col\">" + escaped(head) + "</th>";
    text_ += "</tr></thead>\n<tbody>\n";
    for (const auto& row : rows) {
        text_ += "<tr>";
        for (const std::string& cell : row)
            text_ += (is_figure(cell) ? "<td class=\"figure\">" : "<td>") + escaped(cell) + "</td>";
        text_ += "</tr>\n";
    }
    text_ += "</tbody></table></div>\n";
}

void HtmlText::place(const std::string& kind, std::size_t index) {
    text_ += "<div class=\"" + kind + "\" data-index=\"" + std::to_string(index) + "\"></div>\n";
}

void HtmlText::folded(const std::string& summary) {
    text_ += "<details><summary>" + escaped(summary) + "</summary>\n";
}

}  // namespace lobewright::sheet
