#include "service/fact_text.h"

#include "store/fact_json.h"

namespace mitefall::service {

base::Result<records::Fact> read_fact(std::string_view kind, std::string_view body) {
    auto fact = store::decode(0, kind, body);
    if (fact) return fact;
    base::Error error = fact.error();
    error.kind = base::ErrorKind::invalid_input;
    const auto comma = error.where.find(", ");  // "fact 0, KEY"
    error.where = comma == std::string::npos ? "kind" : error.where.substr(comma + 2);
    error.remedy = "put it right and send it again; nothing was saved";
    return base::fail(std::move(error));
}

}  // namespace mitefall::service
