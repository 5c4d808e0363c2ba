#pragma once

#include <string>
#include <vector>

#include "formats/json/json.h"
#include "questions/option.h"

// Every question, as documentation and schema need it.
namespace mitefall::questions {

struct Described {
    std::string name;
    std::string help;
    std::vector<Saying> options;
};

/// Those that are long computations (`POST /api/jobs`).
[[nodiscard]] std::vector<Described> jobs();
/// All others.
[[nodiscard]] std::vector<Described> others();

/// docs/questions.md
[[nodiscard]] std::string page();
/// docs/schemas/ask.schema.json: what `POST /api/jobs` takes.
[[nodiscard]] formats::Json job_schema();

}  // namespace mitefall::questions
