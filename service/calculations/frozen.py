"""The dataclass of the calculations: as frozen as any, and made in half the time.

``dataclass(frozen=True)`` sets each member of a new object through ``object.__setattr__``, because its own refuses.
That takes two thirds of the time of making one, and an answer is made of a hundred. Here an object is made open, and
when it is whole becomes one of a class that refuses.
"""

import dataclasses
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool = False, **options: Any) -> Any:
        """Make a dataclass as `dataclasses.dataclass` does.

        Parameters
        ----------
        frozen : bool
            Whether to refuse every change of an object, so that it can be hashed.
        **options : Any
            As there.
        """
        return (lambda plain: _frozen(plain, options)) if frozen else dataclasses.dataclass(**options)


def _frozen(plain: Any, options: dict[str, Any]) -> Any:
    inherited = getattr(plain, "__post_init__", None)
    check: Any = getattr(inherited, "check", inherited)

    def shut_unchecked(made: Any) -> None:
        made.__class__ = shut

    def shut_checked(made: Any) -> None:
        check(made)
        made.__class__ = shut

    plain.__post_init__ = shut_checked if check else shut_unchecked
    plain.__post_init__.check = check
    opened: Any = dataclasses.dataclass(unsafe_hash=True, **options)(plain)

    def make(_shut: type, **members: Any) -> Any:
        return opened(**members)

    def leave(_made: Any, **_members: Any) -> None:
        """Nothing is left to do: this stands for the making of one that is made."""

    def refuse(_made: Any, name: str, *_value: Any) -> NoReturn:
        raise dataclasses.FrozenInstanceError(f"cannot change {name!r}")

    members = {"__slots__": (), "__setattr__": refuse, "__delattr__": refuse, "__new__": make, "__init__": leave}
    names = {name: getattr(opened, name) for name in ("__module__", "__qualname__", "__doc__")}
    shut = type(opened.__name__, (opened,), members | names)
    return opened
