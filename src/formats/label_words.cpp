#include "formats/label_words.h"

#include "formats/words.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using base::fail;
using base::Result;

constexpr std::size_t most_lines = 20;

base::Error how_many(std::size_t lines) {
    return base::invalid("a label names its ingredients", std::to_string(lines), "1 to 20 of them",
                         "type each as the label has it, like \"permethrin 0.5 %\"");
}

}  // namespace

Result<mixing::Label> read_label(const LabelWords& words, const LabelOptions& options) {
    mixing::Label label;
    if (words.ingredients.empty() || words.ingredients.size() > most_lines)
        return for_option(options.ingredient,
                          Result<mixing::Label>(fail(how_many(words.ingredients.size()))));
    for (const std::string& text : words.ingredients) {
        auto line = for_option(options.ingredient, mixing::read_label_line(text));
        if (!line) return fail(line.error());
        label.lines.push_back(std::move(*line));
    }
    const auto form = for_option(options.form, mixing::find_stock_form(words.form));
    if (!form) return fail(form.error());
    label.form = *form;
    if (!words.pack.empty()) {
        const auto pack = for_option(options.pack, units::parse_volume(words.pack));
        if (!pack) return fail(pack.error());
        if (!(*pack > units::Volume()))
            return fail(base::invalid("a bottle holds something", words.pack, "more than zero",
                                      "write what is in it, like \"500 mL\""));
        label.pack = *pack;
    }
    if (words.price.empty()) return label;
    auto price = for_option(options.price, mixing::Money::parse(words.price));
    if (!price) return fail(price.error());
    label.price = std::move(*price);
    return label;
}

}  // namespace mitefall::formats
