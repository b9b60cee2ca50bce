#include "core/base/parallel.hpp"

#include <boost/asio/post.hpp>
#include <boost/asio/thread_pool.hpp>

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <memory>
#include <mutex>
#include <thread>

namespace soot {

namespace {

/// Is this thread one of as many as there are processors? Then more would only wait for each other.
thread_local bool all_processors_busy = false;

std::size_t processors() {
  constexpr std::size_t most = 8;
  static const std::size_t count =
      std::clamp(std::size_t{std::thread::hardware_concurrency()}, std::size_t{1}, most);
  return count;
}

boost::asio::thread_pool& helpers() {
  static boost::asio::thread_pool pool(processors() - 1);
  return pool;
}

/// One call's work, dealt out piece by piece. The caller waits for the helpers that have begun,
/// never for one that has not: so calls within calls cannot wait for each other.
class Deal {
 public:
  Deal(std::size_t count, bool is_full, const std::function<void(std::size_t)>& work)
      : count_(count), is_full_(is_full), work_(work) {}

  void help() {
    {
      const std::lock_guard lock(mutex_);
      if (next_ >= count_) return;  // `work_` may be gone
      ++helping_;
    }
    take_share();
    const std::lock_guard lock(mutex_);
    --helping_;
    done_.notify_one();
  }

  void finish() {
    take_share();
    std::unique_lock lock(mutex_);
    done_.wait(lock, [&] { return helping_ == 0; });
    if (thrown_) std::rethrow_exception(thrown_);
  }

 private:
  void take_share() {
    const bool was_busy = all_processors_busy;
    all_processors_busy = was_busy || is_full_;
    for (;;) {
      std::unique_lock lock(mutex_);
      if (next_ >= count_) break;
      const std::size_t piece = next_++;
      lock.unlock();
      try {
        work_(piece);
      } catch (...) {
        lock.lock();
        if (!thrown_) thrown_ = std::current_exception();
        next_ = count_;
      }
    }
    all_processors_busy = was_busy;
  }

  const std::size_t count_;
  const bool is_full_;
  const std::function<void(std::size_t)>& work_;
  std::mutex mutex_;
  std::condition_variable done_;
  std::size_t next_ = 0, helping_ = 0;
  std::exception_ptr thrown_;
};

}  // namespace

void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work) {
  const std::size_t workers = all_processors_busy ? 1 : std::min(count, processors());
  if (workers <= 1) {
    for (std::size_t i = 0; i < count; ++i)
      work(i);
    return;
  }
  // With no more pieces than workers each soon waits for the longest piece, and can help with what
  // that deals out itself.
  const bool is_full = workers == processors() && workers < count;
  const auto deal = std::make_shared<Deal>(count, is_full, work);
  for (std::size_t helper = 1; helper < workers; ++helper)
    boost::asio::post(helpers(), [deal] { deal->help(); });
  deal->finish();
}

}  // namespace soot
