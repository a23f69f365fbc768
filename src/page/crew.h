#pragma once
// Threads for connections: started when they are needed, never more than so many. What comes while all are
// busy waits, and what comes while too many wait is sent away at once.

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace crownwright::page {

class Crew {
 public:
  Crew(std::size_t most_threads, std::size_t most_waiting)
      : most_threads_(most_threads), most_waiting_(most_waiting) {}
  ~Crew() { finish(); }
  Crew(const Crew&) = delete;
  Crew& operator=(const Crew&) = delete;

  /// False: there is no room, and the work is not taken.
  bool take(std::function<void()> work);
  /// Work waits that no thread has begun: who only keeps a place warm should leave.
  bool is_crowded() const;
  /// Waits until all taken work is done. Afterwards nothing is taken.
  void finish();

 private:
  void work_on();

  std::size_t most_threads_, most_waiting_;
  mutable std::mutex mutex_;
  std::condition_variable comes_;
  std::deque<std::function<void()>> waiting_;
  std::vector<std::thread> threads_;
  std::size_t idle_ = 0;
  bool ends_ = false;
};

}  // namespace crownwright::page
