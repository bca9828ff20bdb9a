#include "base/text/length_text.h"
#include "base/text/markup.h"
#include "sheet/page/page_sections.h"
#include "sheet/page/readings_section.h"
#include "sheet/page/viewer_texts.h"

namespace lobewright {
namespace {

/// JSON inside a script element: no text in it can end that.
std::string inside_script(const std::string& json) {
    std::string safe;
    for (const char c : json)
        safe += c == '<' ? std::string("\\u003c") : std::string(1, c);
    return safe;
}

std::string head_of(const Job& job) {
    return "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
           "'unsafe-inline'; "
           "script-src 'unsafe-inline'\">\n<title>" +
           escaped(job.title) + "</title>\n<style>\n" + sheet::viewer_style() + "</style>\n</head>\n";
}

std::string scripts() {
    std::string text = "<script>\n\"use strict\";\n(() => {\n";
    for (const char* script : sheet::viewer_scripts())
        text += script;
    return text + "})();\n</script>\n";
}

}  // namespace

std::string sheet_page(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts) {
    sheet::HtmlText html;
    const sheet::PageView page{job, lobes, parts, html};
    for (const auto put :
         {sheet::put_cautions, sheet::put_shaft, sheet::put_timing, sheet::put_ways, sheet::put_lobes,
          sheet::put_readings, sheet::put_by_hand, sheet::put_program, sheet::put_findings})
        put(page);
    return head_of(job) + "<body>\n<header><h1>" + escaped(job.title) + "</h1>\n<p>Lengths in " +
           units_noun(job.units) + ", seen from the drive end.</p></header>\n<main>\n" + html.text() +
           "</main>\n<script type=\"application/json\" id=\"model\">" +
           inside_script(sheet_model(job, lobes, parts)) + "</script>\n" + scripts() + "</body>\n</html>\n";
}

}  // namespace lobewright
