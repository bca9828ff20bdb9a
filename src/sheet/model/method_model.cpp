#include "sheet/model/model_parts.h"

#include <lobewright/hand_route.h>

namespace lobewright::sheet {
namespace {

template <class Value>
void put_known(JsonText& json, const char* name, const std::optional<Value>& value) {
    if (value) json.member(name, *value);
}

/// Only what applies; how it is cut stands in the route.
void put_setting(JsonText& json, const std::vector<SolvedLobe>& lobes, const HandSetting& setting,
                 double unit) {
    json.object({}, JsonText::Layout::one_line).member("lobe", lobes[setting.lobe].name);
    put_known(json, "mark", setting.mark);
    if (setting.turned) json.member("turned", rounded(setting.turned->degrees()));
    put_known(json, "turns", setting.turns);
    put_known(json, "hole", setting.hole);
    put_known(json, "circle", setting.circle);
    if (setting.finish) json.member("finish", rounded(*setting.finish / unit));
    json.end();
}

void put_table(JsonText& json, const RouteTable& table) {
    json.object({}, JsonText::Layout::one_line).member("caption", table.caption).array("heads");
    for (const std::string& head : table.heads)
        json.item(head);
    json.end().array("rows");
    for (const auto& row : table.rows) {
        json.array();
        for (const std::string& cell : row)
            json.item(cell);
        json.end();
    }
    json.end().end();
}

template <class Item, class Put>
void put_list(JsonText& json, const char* name, const std::vector<Item>& items, Put put) {
    if (items.empty()) return;
    json.array(name);
    for (const Item& item : items)
        put(item);
    json.end();
}

/// Only what the step has, and its part only where that is another than before.
void put_step(JsonText& json, const RouteStep& step, const std::string& part_before, double unit) {
    json.object({}, JsonText::Layout::one_line);
    if (step.part != part_before) json.member("part", step.part);
    if (!step.text.empty()) json.member("text", step.text);
    if (step.stop) json.member("stop", rounded(*step.stop / unit));
    if (step.circle) json.member("circle", *step.circle);
    if (step.arms) json.member("arms", *step.arms);
    if (step.count > 0) json.member("first", step.first).member("count", step.count);
    if (step.set) json.array("set").item(step.set->name).item(step.set->value).end();
    put_list(json, "figures", step.figures,
             [&](const RouteFigure& figure) { json.array().item(figure.name).item(figure.value).end(); });
    put_list(json, "notes", step.notes, [&](const std::string& note) { json.item(note); });
    put_list(json, "tables", step.tables, [&](const RouteTable& table) { put_table(json, table); });
    json.end();
}

}  // namespace

void put_method(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan) {
    const HandMethod& method = job.hand.at(plan.method);
    json.object().member("name", plan.method);
    json.member("divisions",
                method.kind == HandKind::offset_fixture ? std::optional(method.divisions) : std::nullopt);
    json.member("zero", method.zero.degrees()).member("counts", sign_of(method.counts));
    json.array("settings");
    for (const HandSetting& setting : plan.settings)
        put_setting(json, lobes, setting, mm_per(job.units));
    json.end().array("route");
    std::string part;
    for (const RouteStep& step : hand_route(job, lobes, plan)) {
        put_step(json, step, part, mm_per(job.units));
        part = step.part;
    }
    json.end().end();
}

}  // namespace lobewright::sheet
