#include "statement/statement.h"

#include <fmt/format.h>

namespace mitefall::statement {
namespace {

struct Keys {
    std::string operator()(units::Day day) const { return std::to_string(day.time_since_epoch().count()); }
    template <class Dimension>
    std::string operator()(units::Quantity<Dimension> amount) const {
        return (*this)(amount.base());
    }
    std::string operator()(units::Temperature temperature) const {
        return (*this)(units::in_celsius(temperature));
    }
    std::string operator()(double number) const { return fmt::format("{}", number); }
    std::string operator()(const std::string& text) const { return fmt::format("{}:{}", text.size(), text); }
    std::string operator()(const Term& term) const { return std::string(term.key); }
    std::string operator()(const Names& names) const {
        std::string all;
        for (const Who& who : names) all += (*this)(who.id) + (*this)(who.name);
        return all;
    }
    std::string operator()(const std::vector<Statement>& inside) const {
        std::string all;
        for (const Statement& one : inside) all += key_of(one);
        return all;
    }
};

}  // namespace

std::string key_of(const Statement& statement) {
    std::string key(statement.id);
    for (const Argument& argument : statement.arguments) key += "|" + std::visit(Keys{}, argument.value);
    return key + ";";
}

std::vector<std::string> ids_in(const Statement& statement) {
    std::vector<std::string> ids;
    for (const Argument& argument : statement.arguments) {
        const auto* const names = std::get_if<Names>(&argument.value);
        if (names == nullptr) continue;
        for (const Who& who : *names) {
            if (!who.id.empty()) ids.push_back(who.id);
        }
    }
    return ids;
}

}  // namespace mitefall::statement
