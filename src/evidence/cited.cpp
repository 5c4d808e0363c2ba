#include "evidence/cited.h"

namespace mitefall::evidence {

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
