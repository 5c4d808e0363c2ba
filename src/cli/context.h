#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <istream>
#include <ostream>
#include <string>
#include <utility>

#include "base/result.h"
#include "formats/json/json.h"
#include "formats/text/layout.h"
#include "service/keeper.h"
#include "units/text.h"

namespace mitefall::cli {

/// Where the program stands: the only place where clock, streams and environment enter.
struct Surroundings {
    std::ostream& out;
    std::ostream& err;
    service::Now now;
    std::string default_file;                  ///< used when --file is not given
    bool err_is_terminal = false;              ///< progress is shown only there
    std::function<service::Now()> clock = {};  ///< for what runs on; default: `now` for ever
    formats::Terminal terminal = {};           ///< where answers are read
    std::string program = "mitefall";          ///< what is typed to start it
    std::istream* answers = nullptr;           ///< of a person at a terminal; null where nobody is asked
};

/// Options every command shares, and what commands need of the world.
class Context {
  public:
    explicit Context(Surroundings& surroundings) : surroundings_(surroundings) {
        file_ = surroundings.default_file;
    }

    void add_shared_options(CLI::App& app);

    /// Reads --today and --units. Call once, before any command runs.
    [[nodiscard]] base::Result<void> settle();

    [[nodiscard]] const service::Knowledge& knowledge() const { return *knowledge_; }
    [[nodiscard]] const service::Now& now() const { return surroundings_.now; }
    /// The clock of what runs on; with --today its day stands still.
    [[nodiscard]] std::function<service::Now()> clock() const;
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] const std::string& usual_file() const { return surroundings_.default_file; }
    [[nodiscard]] units::Display display() const { return display_; }
    [[nodiscard]] bool wants_json() const { return json_; }
    /// Everything, where an answer leaves out what few readers need.
    [[nodiscard]] bool wants_details() const { return details_; }
    [[nodiscard]] const std::string& program() const { return surroundings_.program; }
    [[nodiscard]] int exit_code() const { return exit_code_; }

    /// The collection file. What is damaged in it is told with the answer.
    [[nodiscard]] base::Result<service::Keeper> open() const;

    /// What is in it, as it stands today.
    [[nodiscard]] base::Result<std::shared_ptr<const service::Situation>> situation() const;

    /// What a question says of today.
    template <class Question, class... Needs>
    [[nodiscard]] auto about_today(const Question& question, const Needs&... needs) const
        -> decltype(std::declval<const service::Keeper&>().ask(now(), question, needs...)) {
        const auto keeper = open();
        if (!keeper) return base::fail(keeper.error());
        return keeper->ask(now(), question, needs...);
    }

    /// Runs `command` when `app` was chosen; an error it returns is printed and sets the exit code.
    void on_chosen(CLI::App& app, std::function<base::Result<void>()> command);

    // Everything printed passes through here, and what a terminal would obey does not pass.

    /// Prints a text as wide as the terminal; with --json nothing.
    void say(const std::string& text) const;
    /// The same on standard error, with --json too: what a reader should know beside the answer.
    void tell(const std::string& text) const;
    /// Prints the enveloped result, also without --json.
    void print_json(std::string_view command, formats::Json result) const;
    /// What was printed can be read before the command has ended.
    void flush() const;

    /// Prints text, or with --json the enveloped result.
    void answer(std::string_view command, const std::string& text,
                const std::function<formats::Json()>& json) const;

    /// Progress for long work, on standard error when that is a terminal; never cancels.
    [[nodiscard]] std::function<bool(double)> progress(std::string label) const;

    /// Whether somebody at the terminal says yes. `nobody`: there is no terminal to ask at.
    enum class Said { yes, no, nobody };
    [[nodiscard]] Said ask(const std::string& question) const;

    /// Prints the error where it belongs and remembers the exit code.
    void report(const base::Error& error, std::string_view command);

  private:
    [[nodiscard]] std::ostream& out() const { return surroundings_.out; }
    [[nodiscard]] std::ostream& err() const { return surroundings_.err; }

    Surroundings& surroundings_;
    mutable std::vector<records::SetAside> damage_;
    std::shared_ptr<service::Knowledge> knowledge_;
    std::string file_;
    std::string today_;
    std::string units_ = "metric";
    bool fahrenheit_ = false;
    bool json_ = false;
    bool details_ = false;
    units::Display display_;
    int exit_code_ = 0;
};

/// Exit code of an error kind; documented in docs/exit-codes.md and never re-used for another meaning.
[[nodiscard]] int exit_code_of(base::ErrorKind kind);

}  // namespace mitefall::cli
