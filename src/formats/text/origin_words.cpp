#include "formats/text/origin_words.h"

#include <fmt/format.h>

#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using belief::Introduction;
using belief::IntroductionKind;

std::string days_between(const OriginView& view, double first, double last) {
    const std::string from = units::show_day(day_of(view, first));
    const std::string to = units::show_day(day_of(view, last));
    return from == to ? "on " + from : "between " + from + " and " + to;
}

}  // namespace

std::string tell(const OriginView& view, const OriginRow& row) {
    const Introduction& one = row.introduction;
    const std::string where = (is_room(view, one.place) ? "room " : "") + key_of(view, one.place);
    switch (one.kind) {
        case IntroductionKind::arrival:
            return fmt::format("with {}, who came into {} {}", one.label, where,
                               days_between(view, one.first_day, one.last_day));
        case IntroductionKind::outside:
            return fmt::format("from {} on {}, {}into {}",
                               words::say(statement::Term{"outside", records::to_text(one.what)}),
                               units::show_day(day_of(view, one.first_day)),
                               row.places.size() > 1 ? "most likely " : "", where);
        case IntroductionKind::unnoticed:
            return fmt::format("unnoticed into {}, most likely {}", where,
                               days_between(view, one.entered_p10, one.entered_p90));
        case IntroductionKind::longer:
            return fmt::format("in {} since before {}", where, units::show_day(view.known.origin));
        case IntroductionKind::just_then:
            return fmt::format("into {} just before they were seen, by a way that nothing on record explains",
                               where);
    }
    return {};
}

}  // namespace mitefall::formats
