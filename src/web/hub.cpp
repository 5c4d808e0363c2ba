#include "web/hub.h"

#include <fmt/format.h>

namespace mitefall::web {

std::unique_ptr<Hub::Ticket> Hub::listen(Listener listener) {
    const std::scoped_lock lock(guard_);
    const std::size_t number = next_++;
    listeners_.emplace(number, std::move(listener));
    return std::make_unique<Ticket>(*this, number);
}

void Hub::leave(std::size_t number) {
    const std::scoped_lock lock(guard_);
    listeners_.erase(number);
}

void Hub::tell(std::string_view event, const formats::Json& data) {
    const std::string text = fmt::format("event: {}\ndata: {}\n\n", event, data.dump());
    std::map<std::size_t, Listener> all;
    {
        const std::scoped_lock lock(guard_);
        all = listeners_;
    }
    for (const auto& [number, listener] : all) listener(text);
}

std::size_t Hub::listeners() const {
    const std::scoped_lock lock(guard_);
    return listeners_.size();
}

}  // namespace mitefall::web
