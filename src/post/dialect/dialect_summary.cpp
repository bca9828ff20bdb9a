#include <lobewright/dialect.h>
#include <lobewright/number_text.h>

namespace lobewright {
namespace {

std::string axis_line(const char* role, const AxisWord& word) {
    return std::string(role) + ' ' + word.letter + (word.diameter ? " (diameter)" : "");
}

std::string rotary_words(const Dialect& d) {
    std::string text;
    if (d.rotary_range == RotaryRange::runs_on) {
        text = "rotary words run on";
        if (d.largest_rotary > 0.0) text += " up to " + shortest_fixed(d.largest_rotary, 3) + " degrees";
        if (d.reckoning == Reckoning::single_precision) text += ", reckoned in single precision";
    } else {
        text = std::string("rotary words are folded to one turn, ") +
               (d.at_fold == RotaryFold::shorter_way ? "shorter way round" : "way round by sign");
    }
    if (d.longest_rotary_block > 0.0) {
        text += ", at most " + shortest_fixed(d.longest_rotary_block, 3) + " degrees in one block";
    }
    return text;
}

std::string feed_words(const Dialect& d) {
    if (d.feed_mode == FeedMode::inverse_time) {
        return std::string("inverse time, F is ") +
               (d.inverse_unit == InverseUnit::seconds ? "the block's seconds" : "1 / the block's minutes");
    }
    if (!d.feed_counts) return "feed per minute, but no rule how it counts: programs are refused";
    return std::string("feed per minute, worked out block by block, counting ") +
           (*d.feed_counts == FeedCounts::mixed ? "linear and rotary axes mixed"
                                                : "linear axes alone where they move");
}

std::string tool_words(const Dialect& d) {
    return d.length_on.empty() ? ", zeros set with the cutter"
                               : ", lengths of tools put on by " + d.length_on;
}

std::string units_words(const Dialect& d) {
    if (d.only_units) return *d.only_units == Units::mm ? "mm only" : "inch only";
    return "mm (" + d.mm_word + ") or inch (" + d.inch_word + ")";
}

std::string comment_words(const Dialect& d) {
    switch (d.comments) {
        case CommentStyle::none:
            return "no comments";
        case CommentStyle::parentheses:
            return "comments in parentheses";
        case CommentStyle::semicolon:
            return "comments after semicolons";
    }
    return {};
}

}  // namespace

std::string dialect_summary(const Dialect& dialect) {
    std::string text = dialect.name + ": " + dialect.summary + '\n';
    text += "  axes: " + axis_line("radial", dialect.radial) + ", " + axis_line("axial", dialect.axial) +
            ", " + axis_line("rotary", dialect.rotary) +
            (dialect.side ? ", " + axis_line("side", dialect.side->word) : std::string()) + "; " +
            rotary_words(dialect) + '\n';
    if (!dialect.home.empty()) text += "  home: " + dialect.home.front() + tool_words(dialect) + '\n';
    text += "  feed: " + feed_words(dialect) + '\n';
    text += "  units: " + units_words(dialect) + '\n';
    text += "  lines: " + comment_words(dialect) + (dialect.block_numbers ? ", numbered" : "") +
            ", at most " + std::to_string(dialect.longest_line) + " characters\n";
    for (const std::string& note : dialect.cannot)
        text += "  cannot " + note + '\n';
    return text;
}

}  // namespace lobewright
