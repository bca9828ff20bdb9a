/// The dialect that the guide to post-processors shows: numbered lengths, the machine's own way home, a side
/// axis.
#pragma once

#include <string>

/// The guide's text, with what every dialect needs beside it.
std::string guide_dialect_text();
