#include "post/program/named_places.h"

#include "base/text/length_text.h"
#include "post/program/move_words.h"
#include "post/program/program_header.h"
#include "post/program/program_lines.h"

#include <lobewright/number_text.h>

namespace lobewright::post {

namespace {

std::string two_digits(int number) {
    const std::string text = std::to_string(number);
    return text.size() < 2 ? '0' + text : text;
}

}  // namespace

std::vector<PlaceText> tool_texts(const Job& job) {
    const Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    return {{"tool", std::to_string(cutter.number)},
            {"tool2", two_digits(cutter.number)},
            {"offset", std::to_string(cutter.offset_number)},
            {"offset2", two_digits(cutter.offset_number)}};
}

std::vector<PlaceText> place_texts(const Job& job, const Toolpath& path, const Dialect& dialect) {
    AxisWords start(dialect, job.units);
    const auto number = [](const std::string& word) { return word.substr(1); };
    std::vector<PlaceText> texts = {
        {"title", comment_text(job.title, dialect)},
        {"job", comment_text(file_name(job.file), dialect)},
        {"dialect", dialect.name},
        {"cutter", comment_text(job.cut->cutter, dialect)},
        {"speed", with_decimal_mark(shortest_fixed(job.cut->spindle_speed, 3), dialect)},
        {"units", units_key(job.units)},
        {"start_radial", number(start.radial(path.start.radial))},
        {"start_axial", number(start.axial(path.start.axial))},
        {"start_rotary", number(start.rotary(path.start.rotary))}};
    for (PlaceText& text : tool_texts(job))
        texts.push_back(std::move(text));
    return texts;
}

std::string with_places(std::string line, const std::vector<PlaceText>& places) {
    for (const auto& [name, text] : places) {
        const std::string place = '{' + name + '}';
        for (std::size_t i = line.find(place); i != std::string::npos; i = line.find(place, i + text.size()))
            line.replace(i, place.size(), text);
    }
    return line;
}

}  // namespace lobewright::post
