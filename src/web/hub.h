#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>

#include "formats/json/json.h"

namespace mitefall::web {

/// Passes news on to everyone who listens. Any thread.
class Hub {
  public:
    /// Takes one event ready to be sent (WHATWG HTML, server-sent events). Must return at once; may be called
    /// a last time while its ticket goes.
    using Listener = std::function<void(const std::string& event)>;

    /// Listens for as long as it lives.
    class Ticket {
      public:
        Ticket(Hub& hub, std::size_t number) : hub_(&hub), number_(number) {}
        Ticket(const Ticket&) = delete;
        Ticket& operator=(const Ticket&) = delete;
        ~Ticket() { hub_->leave(number_); }

      private:
        Hub* hub_;
        std::size_t number_;
    };

    [[nodiscard]] std::unique_ptr<Ticket> listen(Listener listener);
    void tell(std::string_view event, const formats::Json& data);
    [[nodiscard]] std::size_t listeners() const;

  private:
    void leave(std::size_t number);

    mutable std::mutex guard_;
    std::map<std::size_t, Listener> listeners_;
    std::size_t next_ = 0;
};

}  // namespace mitefall::web
