#include "sheet/page/readings_section.h"

#include "base/text/angle_text.h"
#include "inspect/report/inspection_sentences.h"
#include "sheet/page/error_plot.h"

#include <algorithm>

namespace lobewright::sheet {
namespace {

std::string verdict_of(const LobeInspection& found) {
    if (!found.surface || !found.surface->verdict) return "";
    switch (*found.surface->verdict) {
        case ToleranceVerdict::within:
            return "within tolerance";
        case ToleranceVerdict::beyond:
            return "OUT of tolerance";
        case ToleranceVerdict::too_close:
            return "too close to tell";
    }
    return "";
}

void put_lobe(const PageView& page, const LobeInspection& found) {
    const SolvedLobe& lobe = page.lobes[found.lobe];
    const std::string verdict = verdict_of(found);
    page.html.heading(lobe.name + (verdict.empty() ? "" : ": " + verdict));
    const ErrorPlot plot = error_plot(found, lobe.name, page.job.units);
    page.html.raw(plot.svg);
    page.html.paragraph(plot.caption);
    page.html.list(inspection::findings_of(page.job, lobe, found));
}

}  // namespace

void put_readings(const PageView& page) {
    const std::vector<LobeInspection>& all = page.parts.inspections;
    if (all.empty()) return;
    page.html.section("readings", "Measured against the design");
    for (const LobeInspection& found : all)
        put_lobe(page, found);
    if (const auto shaft = shaft_inspection(page.job, page.lobes, all)) {
        page.html.heading("All lobes");
        page.html.list(inspection::findings_of(page.job, page.lobes, *shaft));
    }
    page.html.heading("What this rests on");
    page.html.list(inspection::assumptions(all.front(), page.job.units));
    page.html.end_section();
}

}  // namespace lobewright::sheet
