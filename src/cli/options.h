#pragma once

#include <CLI/CLI.hpp>
#include <memory>

#include "formats/words.h"
#include "questions/option.h"

// What is typed to ask a question (src/questions), as options of a command.
namespace mitefall::cli {

/// Adds the option to the command, unless it is not typed; what is typed comes into `said`, which stays where
/// it is until the command has run.
void add_option(CLI::App& command, const questions::Saying& option, questions::Value& said);

/// What was typed, as it is sent: percent is a share.
[[nodiscard]] questions::Value as_sent(const questions::Saying& option, const questions::Value& said);

/// A question as it is typed.
template <class O>
class Typed {
  public:
    explicit Typed(questions::Question<O> question) : question_(std::move(question)) {}
    Typed(const Typed&) = delete;
    Typed& operator=(const Typed&) = delete;

    /// Once.
    void add_to(CLI::App& command) {
        for (const auto& option : question_.options) said_.push_back(option.otherwise);
        for (std::size_t i = 0; i < said_.size(); ++i) add_option(command, question_.options[i], said_[i]);
    }

    /// Errors name the option as it is typed.
    [[nodiscard]] base::Result<O> read() const {
        O read;
        for (std::size_t i = 0; i < said_.size(); ++i) {
            const auto& option = question_.options[i];
            if (option.names.typed.empty()) continue;
            const auto ok =
                formats::for_option(option.names.typed, option.set(read, as_sent(option, said_[i])));
            if (!ok) return base::fail(ok.error());
        }
        return read;
    }

  private:
    questions::Question<O> question_;
    std::vector<questions::Value> said_;  ///< of each option, in the same order
};

/// A command that asks this question, and what will have been typed.
template <class O>
struct AskingCommand {
    CLI::App* command;
    std::shared_ptr<Typed<O>> typed;
};

template <class O>
AskingCommand<O> add_question(CLI::App& app, questions::Question<O> question) {
    const std::string_view called = question.name.substr(question.name.rfind(' ') + 1);
    CLI::App* const command = app.add_subcommand(std::string(called), std::string(question.help));
    auto typed = std::make_shared<Typed<O>>(std::move(question));
    typed->add_to(*command);
    return {command, std::move(typed)};
}

}  // namespace mitefall::cli
