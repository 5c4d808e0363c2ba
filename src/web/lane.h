#pragma once

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/thread_pool.hpp>
#include <memory>
#include <thread>

#include "web/crowd.h"

namespace mitefall::web {

/// All that a door runs on. Each has its own, so that what comes in by one never waits for the other.
class Lane {
  public:
    explicit Lane(CrowdLimits limits) : crowd_(std::make_shared<Crowd>(limits)) {}

    void start() {
        runner_ = std::thread([this] { run(); });
    }

    /// Nothing that was begun goes on after this.
    void end() {
        boost::asio::post(sockets, [this] { sockets.stop(); });
        if (runner_.joinable()) runner_.join();
        workers.join();
    }

    [[nodiscard]] const std::shared_ptr<Crowd>& crowd() const { return crowd_; }

    boost::asio::io_context sockets{1};
    boost::asio::thread_pool workers{2};  ///< threads that answer

  private:
    /// What one connection throws (no memory, no descriptor) ends neither the others nor the program.
    void run() {
        const auto always = boost::asio::make_work_guard(sockets);
        while (!sockets.stopped()) {
            try {
                sockets.run();
            } catch (...) {
                continue;
            }
        }
    }

    std::shared_ptr<Crowd> crowd_;
    std::thread runner_;
};

}  // namespace mitefall::web
