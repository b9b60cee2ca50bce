// Internal to core/infer. Storage for large tables that is kept from call to call: taken fresh from
// the system each time, clearing its pages would cost as much as the arithmetic.
#pragma once

#include <cstddef>
#include <memory>
#include <new>
#include <utility>
#include <vector>

namespace soot::infer {

/// Uninitialised numbers; empty by default. Copies share nothing and are empty: what it holds can
/// be made again.
class Buffer {
 public:
  Buffer() = default;
  explicit Buffer(std::size_t size) {
    std::vector<Store>& stash = stashed();
    if (!stash.empty()) {
      store_ = std::move(stash.back());
      stash.pop_back();
    }
    if (store_.size >= size) return;
    store_.numbers.reset(new double[size]);
    store_.size = size;
  }
  Buffer(const Buffer&) {}
  Buffer(Buffer&& other) noexcept { std::swap(store_, other.store_); }
  Buffer& operator=(Buffer other) noexcept {
    std::swap(store_, other.store_);
    return *this;
  }
  ~Buffer() {
    constexpr std::size_t most_stashed = 16;
    if (store_.numbers && stashed().size() < most_stashed) stashed().push_back(std::move(store_));
  }

  double* data() { return store_.numbers.get(); }
  const double* data() const { return store_.numbers.get(); }

 private:
  struct Store {
    std::unique_ptr<double[]> numbers;
    std::size_t size = 0;
  };
  static std::vector<Store>& stashed() {
    thread_local std::vector<Store> stash;
    return stash;
  }

  Store store_;
};

/// For vectors whose numbers are all written before they are read: growing does not clear them.
template <class T>
struct Uncleared : std::allocator<T> {
  template <class U>
  struct rebind {
    using other = Uncleared<U>;
  };
  template <class U>
  void construct(U* at) {
    ::new (static_cast<void*>(at)) U;
  }
  template <class U, class... Args>
  void construct(U* at, Args&&... args) {
    ::new (static_cast<void*>(at)) U(std::forward<Args>(args)...);
  }
};

}  // namespace soot::infer
