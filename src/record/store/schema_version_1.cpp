// Stores of this version exist: what stands here never changes. Later versions are changes of it, see
// migrations.cpp.
#include "record/store/schema.h"

namespace tonemend {

const char* const schema_version_1 = R"sql(
CREATE TABLE store_info (key {text} PRIMARY KEY, value {text} NOT NULL);
CREATE TABLE jobs (
  uid {text} PRIMARY KEY, number BIGINT NOT NULL UNIQUE, name {text} NOT NULL, client {text} NOT NULL,
  note {text} NOT NULL, started {text} NOT NULL, closed {text} NOT NULL, folded {text} NOT NULL, undone {text} NOT NULL);
CREATE TABLE pieces (
  uid {text} PRIMARY KEY, job {text} NOT NULL REFERENCES jobs DEFERRABLE, name {text} NOT NULL, wood {text} NOT NULL,
  note {text} NOT NULL, folded {text} NOT NULL, folded_wood {text} NOT NULL, undone {text} NOT NULL);
CREATE INDEX pieces_of_job ON pieces (job);
CREATE TABLE areas (
  uid {text} PRIMARY KEY, piece {text} NOT NULL REFERENCES pieces DEFERRABLE, name {text} NOT NULL, note {text} NOT NULL,
  undone {text} NOT NULL);
CREATE INDEX areas_of_piece ON areas (piece);
CREATE TABLE lights (
  hash {text} PRIMARY KEY, name {text} NOT NULL, light {text} NOT NULL, kelvin DOUBLE PRECISION);
CREATE TABLE calibrations (hash {text} PRIMARY KEY, kind {text} NOT NULL, text {text} NOT NULL);
CREATE TABLE pictures (
  hash {text} PRIMARY KEY, bytes BIGINT NOT NULL, kind {text} NOT NULL, width BIGINT NOT NULL, height BIGINT NOT NULL);
CREATE TABLE kits (uid {text} PRIMARY KEY, name {text} NOT NULL, text {text} NOT NULL, undone {text} NOT NULL);
CREATE TABLE boards (
  uid {text} PRIMARY KEY, kit {text} REFERENCES kits DEFERRABLE, name {text} NOT NULL, wood {text} NOT NULL,
  grit BIGINT NOT NULL, text {text} NOT NULL, undone {text} NOT NULL);
CREATE INDEX boards_of_kit ON boards (kit);
CREATE TABLE steps (
  uid {text} PRIMARY KEY, area {text} NOT NULL REFERENCES areas DEFERRABLE, place BIGINT NOT NULL, kind {text} NOT NULL,
  colourant {text} NOT NULL, carrier {text} NOT NULL, dilution {text} NOT NULL, coats BIGINT NOT NULL,
  grit BIGINT NOT NULL, wait_minutes DOUBLE PRECISION NOT NULL, note {text} NOT NULL, done {text} NOT NULL,
  folded {text} NOT NULL, undone {text} NOT NULL);
CREATE INDEX steps_of_area ON steps (area, place);
CREATE TABLE readings (
  uid {text} PRIMARY KEY, job {text} NOT NULL REFERENCES jobs DEFERRABLE,
  area {text} NOT NULL REFERENCES areas DEFERRABLE, number BIGINT NOT NULL, role {text} NOT NULL, taken {text} NOT NULL,
  picture {text} NOT NULL, original_l DOUBLE PRECISION NOT NULL, original_a DOUBLE PRECISION NOT NULL,
  original_b DOUBLE PRECISION NOT NULL, repair_l DOUBLE PRECISION NOT NULL, repair_a DOUBLE PRECISION NOT NULL,
  repair_b DOUBLE PRECISION NOT NULL, de2000 DOUBLE PRECISION NOT NULL, u95 DOUBLE PRECISION NOT NULL,
  tolerance DOUBLE PRECISION NOT NULL, unfit BIGINT NOT NULL, light {text} REFERENCES lights DEFERRABLE,
  software {text} NOT NULL, annotated {text} REFERENCES pictures DEFERRABLE,
  source {text} REFERENCES pictures DEFERRABLE, calibration {text} REFERENCES calibrations DEFERRABLE,
  flat_field {text} REFERENCES calibrations DEFERRABLE, undone {text} NOT NULL, text_hash {text} NOT NULL,
  text {text} NOT NULL, UNIQUE (job, number));
CREATE INDEX readings_of_area ON readings (area, number);
CREATE TABLE comparisons (
  uid {text} PRIMARY KEY, area {text} NOT NULL REFERENCES areas DEFERRABLE, kind {text} NOT NULL,
  first {text} REFERENCES readings DEFERRABLE, second {text} REFERENCES readings DEFERRABLE, made {text} NOT NULL,
  undone {text} NOT NULL, text {text} NOT NULL);
CREATE INDEX comparisons_of_area ON comparisons (area);
CREATE TABLE changes (
  uid {text} PRIMARY KEY, action {text} NOT NULL, job {text} NOT NULL REFERENCES jobs DEFERRABLE,
  made {text} NOT NULL, words {text} NOT NULL, changed_table {text} NOT NULL, record {text} NOT NULL, changed_column {text} NOT NULL, before {text} NOT NULL,
  undone {text} NOT NULL);
CREATE INDEX changes_of_job ON changes (job);
CREATE TABLE picture_bytes (hash {text} PRIMARY KEY, bytes {bytes} NOT NULL);
)sql";

}  // namespace tonemend
