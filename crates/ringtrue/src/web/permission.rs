//! Who may do what: one table, read by every door.

use ringtrue_job::person::Role;

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Call {
    /// Needs nobody to be signed in.
    Anybody,
    /// Read jobs, records and the library; choose how pages look.
    Look,
    /// Do something on a job; which deed it is decides further.
    Work,
    /// Open a job.
    OpenJob,
    /// Record evidence at a step.
    Record,
    /// Confirm another person's work.
    Confirm,
    /// Correct an earlier event.
    Correct,
    /// Pass a gate that holds.
    Override,
    /// Sign a hold point or the job.
    Sign,
    /// Say what became known later.
    FollowUp,
    /// Bring definitions into the library.
    BringIn,
    /// Add and retire people.
    KeepPeople,
}

impl Call {
    /// May this role do it?
    pub(crate) fn is_allowed(self, role: Role) -> bool {
        match self {
            Self::Anybody | Self::Look => true,
            Self::Work
            | Self::OpenJob
            | Self::Record
            | Self::Confirm
            | Self::Correct
            | Self::Sign
            | Self::FollowUp => role.works(),
            Self::Override => role.overrides(),
            Self::BringIn => match role {
                Role::Engineer | Role::Keeper => true,
                Role::Fitter | Role::Checker => false,
            },
            Self::KeepPeople => role == Role::Keeper,
        }
    }

    /// May this role do it while the store has no keeper? Then anybody keeps who works here, as at
    /// the command line.
    pub(crate) fn is_allowed_without_keeper(self, role: Role) -> bool {
        self == Self::KeepPeople || self.is_allowed(role)
    }

    /// The roles that may, in words of the API.
    pub(crate) fn roles(self) -> Vec<&'static str> {
        Role::ALL.into_iter().filter(|role| self.is_allowed(*role)).map(Role::name).collect()
    }
}
