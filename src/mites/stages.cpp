#include "mites/stages.h"

namespace mitefall::mites {

std::string_view to_text(Stage stage) {
    static constexpr std::array<std::string_view, stage_total> texts{
        "egg",
        "larva",
        "protonymph-seeking",
        "protonymph-feeding",
        "deutonymph",
        "adult-seeking-1",
        "adult-feeding-1",
        "adult-laying-1",
        "adult-seeking-2",
        "adult-feeding-2",
        "adult-laying-2",
        "adult-seeking-3",
        "adult-feeding-3",
        "adult-laying-3",
    };
    return texts.at(static_cast<std::size_t>(stage));
}

std::optional<Stage> stage_from_text(std::string_view text) {
    for (const Stage stage : all_stages) {
        if (to_text(stage) == text) return stage;
    }
    return std::nullopt;
}

std::string_view to_text(Reach reach) {
    switch (reach) {
        case Reach::on_animal: return "on-animal";
        case Reach::mobile_nest: return "mobile-nest";
        case Reach::eggs: return "eggs";
    }
    return {};
}

}  // namespace mitefall::mites
