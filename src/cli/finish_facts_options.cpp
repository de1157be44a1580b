#include "cli/finish_facts_options.h"

#include <CLI/CLI.hpp>
#include <map>
#include <string>

namespace tonemend {

void add_finish_facts(CLI::App& command, FinishFacts& facts) {
    const std::map<std::string, FinishTint> tints{
        {"clear", FinishTint::clear}, {"light", FinishTint::light}, {"amber", FinishTint::amber}};
    command.add_option("--tint", facts.tint, "How yellow the finish is in the can: clear, light or amber")
        ->transform(CLI::CheckedTransformer(tints))
        ->default_str("light");
    const std::map<std::string, FinishSheen> sheens{
        {"gloss", FinishSheen::gloss}, {"satin", FinishSheen::satin}, {"matt", FinishSheen::matt}};
    command.add_option("--sheen", facts.sheen, "Of the dry finish: gloss, satin or matt")
        ->transform(CLI::CheckedTransformer(sheens))
        ->default_str("satin");
}

}  // namespace tonemend
