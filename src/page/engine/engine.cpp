// The program as a page calls it: arguments and texts in, outcome and texts out, packed into bytes.
//
// A packet is a row of numbers (32 bits, the lowest byte first) and texts (a number of bytes, and these
// bytes). In: how many arguments, each; how many files, of each its name and its text. Out: exit code,
// standard output, standard error, how many files, of each its name and its text. The other side is host.mjs.
#include "cli/text_run.h"

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <malloc.h>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using lobewright::cli::TextRun;
using lobewright::cli::Texts;

class PacketReader {
  public:
    explicit PacketReader(std::string_view bytes) : rest_(bytes) {}

    std::uint32_t number() {
        std::uint32_t value = 0;
        std::memcpy(&value, rest_.data(), sizeof value);
        rest_.remove_prefix(sizeof value);
        return value;
    }
    std::string text() {
        const std::size_t size = number();
        std::string text(rest_.substr(0, size));
        rest_.remove_prefix(size);
        return text;
    }

  private:
    std::string_view rest_;
};

void put_number(std::string& packet, std::size_t value) {
    const auto number = static_cast<std::uint32_t>(value);
    char bytes[sizeof number];
    std::memcpy(bytes, &number, sizeof number);
    packet.append(bytes, sizeof bytes);
}

void put_text(std::string& packet, const std::string& text) {
    put_number(packet, text.size());
    packet += text;
}

std::string packet_of(const TextRun& run) {
    std::string packet;
    put_number(packet, static_cast<std::size_t>(run.code));
    put_text(packet, run.out);
    put_text(packet, run.err);
    put_number(packet, run.files.size());
    for (const auto& [name, text] : run.files) {
        put_text(packet, name);
        put_text(packet, text);
    }
    return packet;
}

/// While somebody types, most lobes stay as they are.
lobewright::KnownShapes shapes;

std::string answer_to(std::string_view packet) {
    PacketReader reader(packet);
    std::vector<std::string> arguments(reader.number());
    for (std::string& argument : arguments)
        argument = reader.text();
    Texts files;
    for (std::uint32_t count = reader.number(); count > 0; --count) {
        std::string name = reader.text();
        files[std::move(name)] = reader.text();
    }
    return packet_of(lobewright::cli::run_on_texts(arguments, std::move(files), shapes));
}

std::string asked, answered;

}  // namespace

extern "C" {

/// Room for a packet of that many bytes.
char* lobewright_room(std::size_t size) {
    asked.assign(size, '\0');
    return asked.data();
}

/// Runs what stands in the room; the answer stays until `lobewright_forget`.
const char* lobewright_run() {
    answered = answer_to(asked);
    std::string().swap(asked);
    return answered.data();
}

void lobewright_forget() {
    std::string().swap(answered);
}

/// Bytes that are taken and not given back.
std::size_t lobewright_in_use() {
    return mallinfo().uordblks;
}
}
