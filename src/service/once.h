#pragma once

#include <mutex>
#include <optional>

namespace mitefall::service {

/// A value made when it is first asked for, and kept. Any thread: who comes while it is made waits for it.
template <class T>
class Once {
  public:
    template <class Make>
    const T& get(Make make) const {
        std::call_once(begun_, [&] { value_.emplace(make()); });
        return *value_;
    }

  private:
    mutable std::once_flag begun_;
    mutable std::optional<T> value_;
};

}  // namespace mitefall::service
