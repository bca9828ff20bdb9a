/// The parts of the job file's reader, one for each group of tables. Each takes the file's own table.
#pragma once

#include "job/job_table.h"

namespace lobewright {

void read_shaft(JobTable& file);      ///< [shaft]
void read_engine(JobTable& file);     ///< [engine]
void read_profiles(JobTable& file);   ///< [profile.*]
void read_followers(JobTable& file);  ///< [follower.*]
void read_lobes(JobTable& file);      ///< [[lobe]]
void read_contact(JobTable& file);    ///< [contact]
void read_cutters(JobTable& file);    ///< [cutter.*]
void read_stock(JobTable& file);      ///< [stock]
void read_machines(JobTable& file);   ///< [machine], or [machine.*]
void read_cuts(JobTable& file);   ///< [cut] or [[operation]], after [[lobe]], [cutter.*], machines, [stock]
void read_hand(JobTable& file);   ///< [hand.*], after [cutter.*]
void read_probe(JobTable& file);  ///< [probe]

/// The keys of one machine, and of one cut on it, in whatever table they stand.
Machine read_machine_keys(JobTable& table);
Cut read_cut_keys(JobTable& table, const std::optional<Machine>& machine);

/// Complains if `name`, the value of `key`, is none of the tables [group.*]; names the nearest.
void check_reference(JobTable& table, std::string_view key, const std::string& name, std::string_view group);

}  // namespace lobewright
