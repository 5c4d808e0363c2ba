#include "formats/text/cautions.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "words/words.h"

namespace mitefall::formats {

std::string source_note(const std::string& source, evidence::Tag tag) {
    return source.empty() ? fmt::format("[{}: {}]", evidence::to_text(tag), evidence::explain(tag))
                          : fmt::format("[{}: {}]", evidence::to_text(tag), source);
}

std::string cautions_text(const std::vector<safety::Caution>& cautions) {
    std::string text;
    for (const safety::Caution& caution : cautions)
        text +=
            wrap(words::say(caution.what) + " " + source_note(caution.source, caution.tag), "  ! ", "    ");
    return text;
}

}  // namespace mitefall::formats
