#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "web/answer.h"
#include "web/desk.h"
#include "web/gate.h"
#include "web/hub.h"
#include "web/jobs.h"
#include "web/pairing.h"

namespace mitefall::web {

/// Whether the home network is let in, and how.
struct Sharing {
    bool on = false;
    std::vector<std::string> addresses;  ///< "http://192.168.1.20:8640"
};

/// Everything the program answers, page and data alike. Any thread.
class Site {
  public:
    struct Parts {
        Desk* desk = nullptr;
        Hub* hub = nullptr;
        Pairing* pairing = nullptr;
        std::function<Names()> names;
        std::function<Sharing()> sharing;
        std::function<base::Result<void>(bool)> share;  ///< turns sharing on or off
        std::string version;
    };

    explicit Site(Parts parts);

    /// Never throws: what went wrong is told in words.
    [[nodiscard]] Response handle(const Request& request);
    /// What a request may send, by its head alone.
    [[nodiscard]] Admission admit(const Request& head) const;

    /// Tells every screen if the journal has grown, by whatever program.
    void look_for_news();

  private:
    [[nodiscard]] base::Result<Outcome> work(const Question& question, const Ongoing& ongoing);
    [[nodiscard]] Response attempt(const Request& request);
    [[nodiscard]] Response route(const Request& request);

    Parts parts_;
    std::mutex news_guard_;
    records::FactId told_ = 0;
    Jobs jobs_;  ///< last: its thread uses what stands above
};

}  // namespace mitefall::web
