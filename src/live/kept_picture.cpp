#include "live/kept_picture.h"

#include <fmt/format.h>

#include <utility>

#include "calibrate/card/card.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

std::shared_ptr<const KeptPicture> bring_back(const ReadingStore& store, int number,
                                              const std::string& card) {
    const ReopenedReading reopened = store.reopen(number);
    const ReadingPicture& source = reopened.source;
    const bool bare = source.bare_card.has_value();
    const auto found = source.card || bare ? source.card : find_card(*source.frame);
    if (!found && !bare)
        throw InputError(
            fmt::format("reading {}: no card frame is seen in its picture; take the reading again", number));
    const std::string& name = source.card_name.empty() ? card : source.card_name;
    auto picture = std::make_shared<KeptPicture>();
    picture->number = number;
    picture->taken = reopened.reading.taken;
    picture->frame = source.frame;
    const Card description = read_card(locate_card(name));
    CalibrationInputs inputs;
    static_cast<StatedFacts&>(inputs) = source.stated;
    inputs.kept = source.kept;
    inputs.flat_field = source.flat_field;
    picture->calibration = std::make_shared<const Calibration>(
        bare ? calibrate_on_card(*source.frame, description, *source.bare_card, inputs)
             : calibrate_on_card(*source.frame, description, *found, inputs));
    picture->regions = {source.original, source.repair, std::nullopt};
    picture->card_window = bare ? source.bare_card : found->window;
    return picture;
}

}  // namespace

KeptPictureLoader::KeptPictureLoader(std::function<void()> loaded)
    : loaded_(std::move(loaded)), thread_([this] { run(); }) {}

KeptPictureLoader::~KeptPictureLoader() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

void KeptPictureLoader::ask(std::shared_ptr<const ReadingStore> store, int number, const std::string& card) {
    Order order{std::move(store), number, card};
    {
        const std::lock_guard lock(mutex_);
        if (order == asked_) return;
        asked_ = std::move(order);
        waiting_ = true;
        picture_.reset();
        trouble_.clear();
    }
    changed_.notify_one();
}

void KeptPictureLoader::forget() {
    const std::lock_guard lock(mutex_);
    asked_ = {};
    waiting_ = false;
    picture_.reset();
    trouble_.clear();
}

std::shared_ptr<const KeptPicture> KeptPictureLoader::picture() const {
    const std::lock_guard lock(mutex_);
    return picture_;
}

std::string KeptPictureLoader::trouble() const {
    const std::lock_guard lock(mutex_);
    return trouble_;
}

void KeptPictureLoader::run() {
    while (true) {
        Order order;
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [this] { return waiting_ || ending_; });
            if (ending_) return;
            waiting_ = false;
            order = asked_;
        }
        std::shared_ptr<const KeptPicture> picture;
        std::string trouble;
        try {
            picture = bring_back(*order.store, order.number, order.card);
        } catch (const std::exception& error) {
            trouble = one_line(error.what(), 300);
        }
        {
            const std::lock_guard lock(mutex_);
            if (waiting_ || !(asked_ == order)) continue;  // another was asked for meanwhile, or none
            picture_ = std::move(picture);
            trouble_ = std::move(trouble);
        }
        loaded_();
    }
}

}  // namespace tonemend
