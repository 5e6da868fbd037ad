"""The dataclass of the calculations: frozen for whoever checks types, and made in a third of the time.

``dataclass(frozen=True)`` refuses an assignment when it happens. For that it sets each member of a new object through
``object.__setattr__``, which takes two thirds of the time of making one, and an answer is made of a hundred. mypy,
strict over the whole service, refuses the same assignments before anything runs; so that is left out here. The classes
compare, hash and print as frozen ones do.
"""

import dataclasses
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool = False, **options: Any) -> Any:
        """Make a dataclass as `dataclasses.dataclass` does, without refusing assignments at run time.

        Parameters
        ----------
        frozen : bool
            Nothing assigns to a member of it; it can be hashed.
        **options : Any
            As there.
        """
        return dataclasses.dataclass(unsafe_hash=frozen, **options)
