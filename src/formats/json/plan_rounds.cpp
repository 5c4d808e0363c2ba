#include "formats/json/plan_rounds.h"

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

/// The cautions of a plan, each once; treatments name theirs by position.
class CautionList {
  public:
    Json positions_of(const std::vector<safety::Caution>& cautions) {
        return list(cautions, [&](const safety::Caution& caution) { return position_of(caution); });
    }
    [[nodiscard]] Json json() const { return list(cautions_, caution_json); }

  private:
    std::size_t position_of(const safety::Caution& caution) {
        const auto [known, is_new] = positions_.emplace(
            std::tuple{statement::key_of(caution.what), caution.source, caution.tag}, cautions_.size());
        if (is_new) cautions_.push_back(caution);
        return known->second;
    }

    std::vector<safety::Caution> cautions_;
    std::map<std::tuple<std::string, std::string, evidence::Tag>, std::size_t> positions_;
};

Json treatment_json(const plan::ScheduledTreatment& scheduled, CautionList& cautions) {
    const safety::PermittedTreatment& treatment = scheduled.treatment;
    return {{"task", scheduled.key()},
            {"room", name(treatment.room())},
            {"enclosure", name(treatment.enclosure())},
            {"animals", names(treatment.animals())},
            {"method", records::to_text(treatment.method())},
            {"strength_mg_per_l", strength_or_null(treatment.strength())},
            {"cautions", cautions.positions_of(treatment.cautions())}};
}

Json round_json(const plan::Round& round, CautionList& cautions) {
    return {
        {"planned", date(round.planned)},
        {"day", date(round.day)},
        {"own_date", round.own_date},
        {"treatments", list(round.treatments, [&](const auto& t) { return treatment_json(t, cautions); })}};
}

Json left_out_json(const plan::LeftOut& left_out) {
    return {{"day", date(left_out.day)},
            {"enclosure", name(left_out.enclosure)},
            {"animal", name(left_out.animal)},
            {"room", name(left_out.room)},
            {"method", records::to_text(left_out.method)},
            {"reason", words::say_with_remedy(left_out.why)},
            {"why", why_json(left_out.why)}};
}

}  // namespace

void put_rounds(Json& json, const plan::Schedule& schedule) {
    CautionList cautions;
    json["rounds"] = list(schedule.rounds, [&](const auto& round) { return round_json(round, cautions); });
    json["left_out"] = list(schedule.left_out, left_out_json);
    json["cautions"] = cautions.json();
}

}  // namespace mitefall::formats
