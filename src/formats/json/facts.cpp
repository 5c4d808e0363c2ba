#include "formats/json/facts.h"

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

using records::to_text;

/// As it was said then. Of a course adopted before it was kept: only the reason in full.
Json recorded_why_json(const records::CourseRefusal& refusal) {
    const bool is_kept = !refusal.rule.empty();
    return {{"rule", text_or_null(refusal.rule)},
            {"common", is_kept ? refusal.common : refusal.reason},
            {"own", text_or_null(refusal.own)},
            {"remedy", text_or_null(refusal.remedy)}};
}

/// The archive (records/facts/fact.h) that makes the answer of a fact.
class AnswerFields {
  public:
    template <class T>
    void field(records::Key key, const T& value) {
        if (key.unsaid == records::Unsaid::told_otherwise) return;
        const bool says_nothing = value == T{};
        if (says_nothing && key.unsaid == records::Unsaid::left_out) return;
        json_[key.text] = says_nothing && key.unsaid == records::Unsaid::null ? Json() : said(value);
    }
    template <class T>
    void later_field(records::Key key, const T& value) {
        field(key, value);
    }

    template <class T>
    static Json of(const T& fact) {
        AnswerFields fields;
        records::list_fields(fields, fact);
        return std::move(fields.json_);
    }

  private:
    static Json said(const std::string& text) { return text; }
    static Json said(bool value) { return value; }
    static Json said(int value) { return value; }
    static Json said(units::Day day) { return date(day); }
    static Json said(units::Mass mass) { return number(units::in_grams(mass)); }
    static Json said(units::Strength strength) { return strength_or_null(strength); }
    static Json said(units::Volume volume) { return millilitres_json(volume); }
    static Json said(units::Area area) { return number(units::in_square_centimetres(area)); }
    static Json said(units::Temperature temperature) { return number(units::in_celsius(temperature)); }
    static Json said(units::Humidity humidity) { return number(units::in_percent(humidity)); }
    template <records::Choice E>
    static Json said(E value) {
        return to_text(value);
    }
    template <class E>
    static Json said(const std::optional<E>& value) {
        return value ? said(*value) : Json();
    }
    template <class Kind>
    static Json said(const base::Id<Kind>& id) {
        return name(id);
    }
    template <class T>
    static Json said(const std::vector<T>& rows) {
        return list(rows, [](const T& row) { return said(row); });
    }
    template <records::Described<AnswerFields> Row>
    static Json said(const Row& row) {
        return of(row);
    }

    static Json said(const records::CourseRefusal& row) { return course_refusal_json(row); }

    Json json_ = Json::object();
};

Json entry_json(const records::Entry& entry) {
    return {{"id", entry.id},
            {"day", date(entry.day)},
            {"recorded_at", entry.recorded_at},
            {"kind", records::kind_of(entry.fact)},
            {"corrects", entry.corrects ? Json(*entry.corrects) : Json(nullptr)},
            {"fact", fact_json(entry.fact)}};
}

}  // namespace

Json fact_json(const records::Fact& fact) {
    return std::visit([](const auto& one) { return AnswerFields::of(one); }, fact);
}

Json course_treatment_json(const records::CourseTreatment& treatment) { return AnswerFields::of(treatment); }

Json course_refusal_json(const records::CourseRefusal& refusal) {
    Json json = AnswerFields::of(refusal);
    json["why"] = recorded_why_json(refusal);
    return json;
}

Json emptied_wood_json(const records::EmptiedWood& wood) { return AnswerFields::of(wood); }

Json moved_round_json(const records::MovedRound& round) { return AnswerFields::of(round); }

Json journal_json(const std::vector<records::Entry>& journal) {
    return {{"entries", list(journal, entry_json)}};
}

}  // namespace mitefall::formats
