#include "evidence/cited.h"

namespace mitefall::evidence {

std::string to_text(Tag tag) {
    switch (tag) {
        case Tag::read: return "R";
        case Tag::read_in_citing: return "R2";
        case Tag::memory: return "M";
        case Tag::computed: return "C";
        case Tag::common_practice: return "P";
        case Tag::assumption: return "A";
    }
    return {};
}

std::string explain(Tag tag) {
    switch (tag) {
        case Tag::read: return "published, read in the text named";
        case Tag::read_in_citing: return "published, read in a text that cites it";
        case Tag::memory: return "from memory, to be verified";
        case Tag::computed: return "computed from published figures";
        case Tag::common_practice: return "common practice, no published source";
        case Tag::assumption: return "our assumption, no published source";
    }
    return {};
}

}  // namespace mitefall::evidence
