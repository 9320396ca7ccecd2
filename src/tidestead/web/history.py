"""The texts a plan has had while it was open, for undo and redo."""

from __future__ import annotations

from dataclasses import dataclass, field

MOST = 200
"""Texts kept; a plan is some ten thousand characters."""


@dataclass(frozen=True)
class Version:
    """One text of the plan, and in a few words what made it so."""

    text: str
    why: str
    sound: bool = True


@dataclass
class History:
    """Versions in the order they came, and which of them is the plan now."""

    versions: list[Version] = field(default_factory=list)
    at: int = -1

    def add(self, text: str, why: str, *, sound: bool = True) -> None:
        """A new version; what had been undone before it is given up."""
        if self.at >= 0 and self.versions[self.at].text == text:
            return
        del self.versions[self.at + 1 :]
        self.versions.append(Version(text, why, sound))
        del self.versions[: max(0, len(self.versions) - MOST)]
        self.at = len(self.versions) - 1

    def version(self, move: int) -> Version | None:
        """The version so many steps on from the plan's, or back where the number is negative; None past an end."""
        at = self.at + move
        return self.versions[at] if 0 <= at < len(self.versions) else None

    @property
    def before(self) -> Version | None:
        """The version before the plan's."""
        return self.version(-1)

    @property
    def after(self) -> Version | None:
        """The version after the plan's."""
        return self.version(1)

    @property
    def has_sound(self) -> bool:
        """Whether a sound version came before the plan's."""
        return any(one.sound for one in self.versions[: max(0, self.at)])

    @property
    def undoes(self) -> str:
        """What undo would take back, in words; empty where there is nothing."""
        return self.versions[self.at].why if self.before else ""

    @property
    def redoes(self) -> str:
        """What redo would do again, in words; empty where there is nothing. What has faults is passed over."""
        return next((one.why for one in self.versions[self.at + 1 :] if one.sound), "")
