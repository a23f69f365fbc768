#include "page/crew.h"

#include <system_error>

namespace crownwright::page {

bool Crew::take(std::function<void()> work) {
  {
    const std::lock_guard lock(mutex_);
    if (ends_ || waiting_.size() >= most_waiting_) return false;
    waiting_.push_back(std::move(work));
    if (idle_ < waiting_.size() && threads_.size() < most_threads_) {
      try {
        threads_.emplace_back([this] { work_on(); });
      } catch (const std::system_error&) {
        // The system gives no more threads: those that are there get to it.
        if (threads_.empty()) {
          waiting_.pop_back();
          return false;
        }
      }
    }
  }
  comes_.notify_one();
  return true;
}

bool Crew::is_crowded() const {
  const std::lock_guard lock(mutex_);
  return waiting_.size() > idle_;
}

void Crew::finish() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  comes_.notify_all();
  for (std::thread& thread : threads_)
    if (thread.joinable()) thread.join();
}

void Crew::work_on() {
  std::unique_lock lock(mutex_);
  for (;;) {
    ++idle_;
    comes_.wait(lock, [this] { return ends_ || !waiting_.empty(); });
    --idle_;
    if (waiting_.empty()) return;
    const std::function<void()> work = std::move(waiting_.front());
    waiting_.pop_front();
    lock.unlock();
    work();
    lock.lock();
  }
}

}  // namespace crownwright::page
