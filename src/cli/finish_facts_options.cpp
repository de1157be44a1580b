#include "cli/finish_facts_options.h"

#include <CLI/CLI.hpp>
#include <map>
#include <string>
#include <vector>

namespace tonemend {
namespace {

template <typename Value>
void add_word(CLI::App& command, const char* flag, Value& value, const std::map<std::string, Value>& names,
              const char* usual, const char* help) {
    std::vector<std::string> words;
    for (const auto& [word, meaning] : names) words.push_back(word);
    command
        .add_option_function<std::string>(
            flag, [&value, names](const std::string& word) { value = names.at(word); }, help)
        ->check(CLI::IsMember(words))
        ->default_str(usual);
}

}  // namespace

void add_finish_facts(CLI::App& command, FinishFacts& facts) {
    add_word<FinishTint>(
        command, "--tint", facts.tint,
        {{"clear", FinishTint::clear}, {"light", FinishTint::light}, {"amber", FinishTint::amber}}, "light",
        "How yellow the finish is in the can: clear, light or amber");
    add_word<FinishSheen>(
        command, "--sheen", facts.sheen,
        {{"gloss", FinishSheen::gloss}, {"satin", FinishSheen::satin}, {"matt", FinishSheen::matt}}, "satin",
        "Of the dry finish: gloss, satin or matt");
}

}  // namespace tonemend
