# SPDX-License-Identifier: Apache-2.0
"""The steps by which a shop's database grows; run when a shop is opened."""
